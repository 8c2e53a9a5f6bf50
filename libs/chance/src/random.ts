/**
 * A small seeded generator (32-bit, splitmix-style output), the same on every machine.
 * No engine uses Math.random: one seed gives one result.
 */
export class SeededRandom {
  private state: number;

  constructor(seed: number) {
    this.state = seed >>> 0;
  }

  /** The next whole number in 0 .. 2^32 - 1. */
  nextUint32(): number {
    this.state = (this.state + 0x9e3779b9) >>> 0;
    let mixed = this.state;
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x21f0aaad);
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
    return (mixed ^ (mixed >>> 15)) >>> 0;
  }

  /** Uniform in [0, 1). */
  nextUnit(): number {
    return this.nextUint32() / 0x1_0000_0000;
  }

  /** Uniform whole number in 0 .. bound - 1, for bound >= 1. */
  nextBelow(bound: number): number {
    return Math.floor(this.nextUnit() * bound);
  }

  /** Standard normal, by Box and Muller's method. */
  nextNormal(): number {
    const radius = Math.sqrt(-2 * Math.log(1 - this.nextUnit()));
    return radius * Math.cos(2 * Math.PI * this.nextUnit());
  }

  /** Fills a list with standard normals, two from each accepted point of Marsaglia's polar method. */
  fillNormals(deviates: Float64Array): void {
    for (let index = 0; index < deviates.length; index += 2) {
      let x = 0;
      let y = 0;
      let square = 0;
      do {
        x = 2 * this.nextUnit() - 1;
        y = 2 * this.nextUnit() - 1;
        square = x * x + y * y;
      } while (square >= 1 || square === 0);
      const scale = Math.sqrt((-2 * Math.log(square)) / square);
      deviates[index] = x * scale;
      if (index + 1 < deviates.length) deviates[index + 1] = y * scale;
    }
  }

  /** An independent generator for a numbered stream (worker, job, sample). */
  split(stream: number): SeededRandom {
    return new SeededRandom(Math.imul(this.state ^ 0x5bd1e995, 2 * stream + 1) ^ stream);
  }
}
