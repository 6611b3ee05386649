/** The owner of a mark renews it this often, ms. */
export const beatMs = 10_000;
/** A mark that stood still for so long is nobody's, ms: six times not renewed, which a busy disk or machine does not cause. */
export const silentMs = 60_000;

/**
 * For how long the owner of a mark has been silent, by the clock of who looks: those of two machines, and of the disk, may
 * differ by more than any bound. Between two looks no more counts than one beat, since a machine that was asleep has seen
 * nothing.
 */
export class Silence {
  private sign: string | null = null;
  private lookedMs = 0;
  private forMs = 0;

  /**
   * @param sign   changes when the mark is renewed, or another's
   * @param nowMs  of a clock that only goes forward
   * @returns whether it has stood still for too long
   */
  isTooLong(sign: string, nowMs: number): boolean {
    this.forMs = sign === this.sign ? this.forMs + Math.min(nowMs - this.lookedMs, beatMs) : 0;
    this.sign = sign;
    this.lookedMs = nowMs;
    return this.forMs >= silentMs;
  }
}
