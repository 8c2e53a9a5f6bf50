import { fileURLToPath } from 'node:url';
import { MessageChannel } from 'node:worker_threads';
import type { Firm } from '@brimline/firm';
import type { FirmRepository, PlanRepository } from '@brimline/persistence';
import type { PlanOutcome, PlanProgress, WeekPlan } from '@brimline/planning';
import { ConflictException, Injectable, type OnApplicationShutdown } from '@nestjs/common';
import { Piscina } from 'piscina';
import { BehaviorSubject, type Observable } from 'rxjs';

export interface PlannerState {
  readonly state: 'planning' | 'ready' | 'failed';
  /** What is being worked out, or what went wrong, in words. */
  readonly message: string;
}

const STAGE_WORDS: Readonly<Record<PlanProgress['stage'], string>> = {
  estimating: 'Estimating jobs',
  scheduling: 'Trying plans',
};

/** Makes plans in a worker, one at a time, so that the server goes on answering. */
@Injectable()
export class PlannerService implements OnApplicationShutdown {
  private readonly pool = new Piscina({
    filename: fileURLToPath(new URL('./plan-worker.js', import.meta.url)),
    maxThreads: 1,
    idleTimeout: 30_000,
  });
  private readonly state = new BehaviorSubject<PlannerState>({ state: 'ready', message: '' });
  private readonly stopper = new AbortController();

  constructor(
    private readonly firms: FirmRepository,
    private readonly plans: PlanRepository,
  ) {}

  get current(): PlannerState {
    return this.state.value;
  }

  get changes(): Observable<PlannerState> {
    return this.state;
  }

  /** Starts a plan of the whole firm; the answer comes by `current` and `changes`. */
  async begin(seed: number): Promise<void> {
    if (this.current.state === 'planning') throw new ConflictException('A plan is being made already.');
    this.state.next({ state: 'planning', message: 'Reading the registers' });
    const firm = await this.firms.load();
    if (!firm || firm.jobs.length === 0) {
      this.state.next({ state: 'failed', message: 'There are no jobs to plan.' });
      return;
    }
    void this.make(firm, seed);
  }

  async onApplicationShutdown(): Promise<void> {
    this.stopper.abort();
    this.state.complete();
    await this.pool.destroy();
  }

  private async make(firm: Firm, seed: number): Promise<void> {
    const { port1, port2 } = new MessageChannel();
    port1.on('message', ({ stage, done, of }: PlanProgress) =>
      this.state.next({ state: 'planning', message: `${STAGE_WORDS[stage]}: ${done} of ${of}` }),
    );
    try {
      const task = { firm, seed, progress: port2 };
      const outcome = (await this.pool.run(task, {
        transferList: [port2],
        signal: this.stopper.signal,
      })) as PlanOutcome;
      await this.keep(outcome);
    } catch (error) {
      if (this.stopper.signal.aborted) return;
      this.state.next({ state: 'failed', message: error instanceof Error ? error.message : String(error) });
    } finally {
      port1.close();
    }
  }

  private async keep(outcome: PlanOutcome): Promise<void> {
    if (outcome.kind === 'planned') {
      await this.plans.save(outcome.plan, new Date());
      this.state.next({ state: 'ready', message: '' });
      return;
    }
    const why = outcome.refused.flatMap(({ id, reasons }) =>
      reasons.map(({ message }) => `${id}: ${message}`),
    );
    this.state.next({ state: 'failed', message: `No job can be planned. ${why.join(' ')}` });
  }

  /** The latest plan; null while there is none. */
  latest(): Promise<WeekPlan | null> {
    return this.plans.latest();
  }
}
