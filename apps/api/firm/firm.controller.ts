import type { Firm, Job } from '@brimline/firm';
import { FirmRepository } from '@brimline/persistence';
import { Controller, Get, Inject, NotFoundException, Param } from '@nestjs/common';
import { jobId } from '../plans/plans.controller.ts';

/** The registers as they are stored, in SI. */
@Controller('api')
export class FirmController {
  constructor(@Inject(FirmRepository) private readonly firms: FirmRepository) {}

  @Get('firm')
  async firm(): Promise<Firm> {
    const firm = await this.firms.load();
    if (!firm) throw new NotFoundException('No firm is stored yet.');
    return firm;
  }

  @Get('jobs')
  async jobs(): Promise<{ readonly jobs: readonly Job[] }> {
    const { jobs } = await this.firm();
    return { jobs };
  }

  @Get('jobs/:id')
  async job(@Param('id', { schema: jobId }) id: string): Promise<Job> {
    const found = (await this.firm()).jobs.find((job) => job.id === id);
    if (!found) throw new NotFoundException(`Job ${id} is not stored.`);
    return found;
  }
}
