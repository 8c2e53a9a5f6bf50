import { calculations } from '@brimline/planning';
import type { Calculation } from '@brimline/quantities';
import { Body, Controller, Get, HttpCode, NotFoundException, Param, Post } from '@nestjs/common';
import { z } from 'zod';

const calculationName = z.string().min(1).max(60).meta({ description: 'Name of a calculation.' });
export const calculationInput = z
  .record(z.string(), z.unknown())
  .meta({ id: 'CalculationInput', description: 'The fields that the calculation lists.' });

/** The engineering calculations by name: the same list as on the command line. */
@Controller('api/calc')
export class CalculationsController {
  @Get()
  list(): readonly Omit<Calculation, 'run'>[] {
    return calculations.map(({ run: _run, ...facts }) => facts);
  }

  @Post(':name')
  @HttpCode(200)
  run(
    @Param('name', { schema: calculationName }) name: string,
    @Body({ schema: calculationInput }) input: z.output<typeof calculationInput>,
  ): Readonly<Record<string, unknown>> {
    const found = calculations.find((one) => one.name === name);
    if (!found)
      throw new NotFoundException(
        `${name} is not a calculation; one of: ${calculations.map((one) => one.name).join(', ')}.`,
      );
    return found.run(input);
  }
}
