import type { BenchEvent } from '../../core/contract/bench';

/**
 * The events in a text of server-sent events.
 *
 * @param text  from the start of an event on
 * @returns the events that are whole, and the text that is left over
 */
export function eventsIn(text: string): { events: BenchEvent[]; rest: string } {
  const blocks = text.split('\n\n');
  const rest = blocks.pop() ?? '';
  const events = blocks.flatMap((block) => {
    const data = block.split('\n').filter((line) => line.startsWith('data: '));
    // The host writes one line of JSON an event; comments keep the line open.
    return data.length > 0
      ? [JSON.parse(data.map((line) => line.slice('data: '.length)).join('\n')) as BenchEvent]
      : [];
  });
  return { events, rest };
}

/** Reads events until the stream ends. */
export async function readEvents(
  stream: ReadableStream<Uint8Array>,
  listener: (event: BenchEvent) => void,
): Promise<void> {
  const decoder = new TextDecoder();
  const reader = stream.getReader();
  let text = '';
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return;
    const { events, rest } = eventsIn(text + decoder.decode(value, { stream: true }));
    text = rest;
    events.forEach(listener);
  }
}
