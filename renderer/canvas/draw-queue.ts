const waiting: (() => void)[] = [];

/** One job a frame, so that the page answers between them however many maps are to be drawn. */
function drawNext(): void {
  waiting.shift()?.();
  if (waiting.length > 0) requestAnimationFrame(drawNext);
}

/** Draws in one of the next frames. @returns a function that takes it back */
export function drawSoon(job: () => void): () => void {
  waiting.push(job);
  if (waiting.length === 1) requestAnimationFrame(drawNext);
  return () => {
    const at = waiting.indexOf(job);
    if (at >= 0) waiting.splice(at, 1);
  };
}
