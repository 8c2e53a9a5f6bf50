import type { WeekPlan } from '@brimline/planning';
import { words } from '../words.ts';
import { askJson } from './ask.ts';

/** What is known of the plan; the last good plan stays while another is made or after one failed. */
export interface PlanView {
  readonly plan: WeekPlan | null;
  readonly fetched_ms: number | null;
  /** What is being worked out now; null when nothing is. */
  readonly working: string | null;
  readonly failure: string | null;
}

interface PlannerState {
  readonly state: 'planning' | 'ready' | 'failed';
  readonly message: string;
}

const PLAN = 'api/plan';
const POLL_MS = 1000;

/** Holds the plan for the screens: fetches it, waits while it is being made, asks for a new one. */
export class PlanSource {
  private view: PlanView = { plan: null, fetched_ms: null, working: words.state.loading, failure: null };
  private readonly listeners = new Set<() => void>();
  /** Only the latest request may change the view. */
  private turn = 0;

  constructor(private readonly wait: (ms: number) => Promise<void> = later) {}

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  readonly current = (): PlanView => this.view;

  /** Fetches the plan, and waits for it where it is still being made. */
  readonly load = async (): Promise<void> => {
    const turn = (this.turn += 1);
    this.change({ working: this.view.working ?? words.state.loading, failure: null });
    await this.fetchPlan(turn, true);
  };

  /** Has a new plan made. */
  readonly planAgain = async (): Promise<void> => {
    const turn = (this.turn += 1);
    this.change({ working: words.state.loading, failure: null });
    const answer = await askJson<unknown>(words.state.planner, PLAN, { method: 'POST' });
    if (turn !== this.turn) return;
    const isRunning = answer.status === 409;
    if (answer.ok || isRunning) await this.waitForPlan(turn);
    else this.change({ working: null, failure: answer.message });
  };

  /** `mayWait`: where the server has no plan yet, wait for it instead of calling it a failure. */
  private async fetchPlan(turn: number, mayWait: boolean): Promise<void> {
    const answer = await askJson<WeekPlan>(words.state.planner, PLAN);
    if (turn !== this.turn) return;
    const isMissing = answer.status === 202 || answer.status === 404;
    if (answer.ok && !isMissing) {
      this.change({ plan: answer.value, fetched_ms: Date.now(), working: null, failure: null });
    } else if (isMissing && mayWait) await this.waitForPlan(turn);
    else this.change({ working: null, failure: answer.ok ? words.state.noPlanYet : answer.message });
  }

  private async waitForPlan(turn: number): Promise<void> {
    for (;;) {
      const answer = await askJson<PlannerState>(words.state.planner, `${PLAN}/state`);
      if (turn !== this.turn) return;
      if (!answer.ok) return this.change({ working: null, failure: answer.message });
      const { state, message } = answer.value;
      if (state === 'failed') return this.change({ working: null, failure: message });
      if (state === 'ready') return this.fetchPlan(turn, false);
      this.change({ working: message });
      await this.wait(POLL_MS);
      if (turn !== this.turn) return;
    }
  }

  private change(part: Partial<PlanView>): void {
    this.view = { ...this.view, ...part };
    for (const listener of this.listeners) listener();
  }
}

function later(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
