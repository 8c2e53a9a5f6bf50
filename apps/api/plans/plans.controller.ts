import type { PlannedJob, WeekPlan } from '@brimline/planning';
import {
  Body,
  Controller,
  Get,
  HttpCode,
  Inject,
  type MessageEvent,
  NotFoundException,
  Param,
  Post,
  Res,
  Sse,
  StreamableFile,
} from '@nestjs/common';
import type { Response } from 'express';
import { map, type Observable } from 'rxjs';
import { z } from 'zod';
import { PlannerService, type PlannerState } from './planner.service.ts';

const SHEET = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

export const planRequest = z
  .strictObject({
    seed: z
      .int()
      .min(0)
      .max(2 ** 31 - 1)
      .default(1),
  })
  .prefault({})
  .meta({ id: 'PlanRequest', description: 'One seed gives one plan.' });
export const jobId = z.string().min(1).max(40).meta({ description: 'Number of a job.' });

/** The week's plan, how it is being made, and its workbooks. */
@Controller('api')
export class PlansController {
  constructor(@Inject(PlannerService) private readonly planner: PlannerService) {}

  @Get('plan')
  async plan(@Res({ passthrough: true }) response: Response): Promise<WeekPlan | PlannerState> {
    const plan = await this.planner.latest();
    if (plan) return plan;
    if (this.planner.current.state !== 'planning') throw new NotFoundException('No plan was made yet.');
    response.status(202);
    return this.planner.current;
  }

  @Get('plan/state')
  state(): PlannerState {
    return this.planner.current;
  }

  @Sse('plan/events')
  events(): Observable<MessageEvent> {
    return this.planner.changes.pipe(map((data) => ({ data })));
  }

  @Post('plan')
  @HttpCode(202)
  async begin(@Body({ schema: planRequest }) { seed }: z.output<typeof planRequest>): Promise<PlannerState> {
    await this.planner.begin(seed);
    return this.planner.current;
  }

  @Get('plan/timeline.xlsx')
  async timeline(): Promise<StreamableFile> {
    const plan = await this.requirePlan();
    const { timelineWorkbook } = await import('@brimline/workbooks');
    return download(await timelineWorkbook(plan), `timeline-${plan.planFrom}.xlsx`);
  }

  @Get('jobs/:id/quote.xlsx')
  async quote(@Param('id', { schema: jobId }) id: string): Promise<StreamableFile> {
    const plan = await this.requirePlan();
    const { quoteWorkbook } = await import('@brimline/workbooks');
    return download(await quoteWorkbook(jobOf(plan, id), plan), `quote-${id}.xlsx`);
  }

  @Get('jobs/:id/offer.xlsx')
  async offer(@Param('id', { schema: jobId }) id: string): Promise<StreamableFile> {
    const plan = await this.requirePlan();
    const { offerWorkbook } = await import('@brimline/workbooks');
    return download(await offerWorkbook(jobOf(plan, id), plan), `offer-${id}.xlsx`);
  }

  private async requirePlan(): Promise<WeekPlan> {
    const plan = await this.planner.latest();
    if (!plan) throw new NotFoundException('No plan was made yet.');
    return plan;
  }
}

function jobOf(plan: WeekPlan, id: string): PlannedJob {
  const job = plan.jobs.find((one) => one.id === id);
  if (!job)
    throw new NotFoundException(
      `Job ${id} is not in the plan; planned are ${plan.jobs.map((one) => one.id).join(', ')}.`,
    );
  return job;
}

function download(bytes: Uint8Array, name: string): StreamableFile {
  return new StreamableFile(bytes, { type: SHEET, disposition: `attachment; filename="${name}"` });
}
