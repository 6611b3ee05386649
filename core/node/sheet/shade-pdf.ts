import type { Drawing } from '../../sheet/drawing';
import { Paper } from './paper';
import { drawOnPaper } from './pdf-drawing';

/**
 * A drawing as a page of its own size, true to scale.
 *
 * @rule AV8
 */
export async function drawingPdf(
  drawing: Drawing,
  { program, savedAt }: { readonly program: string; readonly savedAt: string },
): Promise<Buffer> {
  const { widthMm, heightMm, title } = drawing;
  const paper = new Paper({ paper: [widthMm, heightMm], title, foot: program, program, savedAt });
  drawOnPaper(paper, drawing, [-paper.leftMm, 0], new Map());
  return paper.finish();
}
