import type { CompiledProblem } from './compiled-problem.ts';

/**
 * What is left of each budget, and the least that the activities still to be placed will take. A mode is affordable
 * when the rest can still be paid at its cheapest.
 */
export class BudgetLedger {
  private left: Float64Array;
  private leastToCome: Float64Array;
  private readonly least: readonly Float64Array[];

  constructor(private readonly compiled: CompiledProblem) {
    const { problem, activities } = compiled;
    this.least = activities.map(({ activity }) =>
      Float64Array.from(problem.budgets, ({ id }) =>
        Math.min(...activity.modes.map((mode) => taken(mode.consumes, id))),
      ),
    );
    this.left = new Float64Array(problem.budgets.length);
    this.leastToCome = new Float64Array(problem.budgets.length);
    this.clear();
  }

  clear(): void {
    for (const [budget, { amount }] of this.compiled.problem.budgets.entries()) {
      this.left[budget] = amount;
      this.leastToCome[budget] = this.least.reduce((sum, least) => sum + least[budget]!, 0);
    }
  }

  canAfford(index: number, mode: number): boolean {
    const { consumes } = this.compiled.activities[index]!.activity.modes[mode]!;
    return this.compiled.problem.budgets.every(({ id }, budget) => {
      const othersToCome = this.leastToCome[budget]! - this.least[index]![budget]!;
      return taken(consumes, id) + othersToCome <= this.left[budget]! + 1e-9;
    });
  }

  spend(index: number, mode: number, sign: 1 | -1): void {
    const { consumes } = this.compiled.activities[index]!.activity.modes[mode]!;
    for (const [budget, { id }] of this.compiled.problem.budgets.entries()) {
      this.left[budget]! -= sign * taken(consumes, id);
      this.leastToCome[budget]! -= sign * this.least[index]![budget]!;
    }
  }
}

function taken(
  consumes: readonly { readonly budgetId: string; readonly amount: number }[],
  id: string,
): number {
  return consumes.find(({ budgetId }) => budgetId === id)?.amount ?? 0;
}
