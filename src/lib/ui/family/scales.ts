/** How large a drawing is shown. A scale is pixels for one unit of the drawing; lengths are pixels. */
interface Size {
	readonly width: number;
	readonly height: number;
}

/** A symbol can still be hit with a finger's tip, and its words be read at the other end. */
export const leastScale = 0.26;
export const greatestScale = 2.4;
const readable = 0.9;
/** Words are still readable at this size by most, at a desk a little smaller; below it a part is shown first. */
const wholeFrom = { phone: 0.72, desk: 0.6 };
const deskFrom = 800;
export const zoomStep = 1.35;

/** So large that the whole drawing is in the frame, as far as symbols stay large enough to hit. */
export function wholeScale(drawing: Size, frame: Size): number {
	const fits = Math.min(frame.width / drawing.width, frame.height / drawing.height, 1.2);
	return Math.max(leastScale, fits);
}

/** The first look: the whole if it can be read, else a part that can. */
export function firstScale(drawing: Size, frame: Size): number {
	const whole = wholeScale(drawing, frame);
	return whole >= wholeFrom[frame.width < deskFrom ? 'phone' : 'desk'] ? whole : readable;
}

/** What an A4 or a US letter sheet holds beside the heading and the key, at 96 pixels an inch. */
const sheets = { tall: { width: 680, height: 690 }, wide: { width: 930, height: 430 } } as const;

/** One sheet of paper: which way round it is held, and how large the drawing is on it. */
export function sheetFor(drawing: Size): { readonly held: 'tall' | 'wide'; readonly scale: number } {
	const on = ({ width, height }: Size) => Math.min(width / drawing.width, height / drawing.height, 1.1);
	const [tall, wide] = [on(sheets.tall), on(sheets.wide)];
	return wide > tall ? { held: 'wide', scale: wide } : { held: 'tall', scale: tall };
}
