/** A relation was asked outside the range in which it holds. Carries what, the value and the rule. */
export class OutOfDomainError extends Error {
  constructor(
    readonly quantity: string,
    readonly value: number | string,
    readonly allowed: string,
  ) {
    super(`${quantity} is ${value}; allowed: ${allowed}`);
    this.name = 'OutOfDomainError';
  }
}

/** @throws OutOfDomainError unless the value is a finite number above zero */
export function requirePositive(quantity: string, value: number): void {
  if (!(Number.isFinite(value) && value > 0))
    throw new OutOfDomainError(quantity, value, 'a finite number above 0');
}

/** @throws OutOfDomainError unless the value is a finite number, zero or above */
export function requireNotNegative(quantity: string, value: number): void {
  if (!(Number.isFinite(value) && value >= 0))
    throw new OutOfDomainError(quantity, value, 'a finite number, 0 or above');
}

/** @throws OutOfDomainError unless low <= value <= high */
export function requireWithin(quantity: string, value: number, low: number, high: number): void {
  if (!(value >= low && value <= high)) throw new OutOfDomainError(quantity, value, `${low} to ${high}`);
}
