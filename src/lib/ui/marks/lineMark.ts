/**
 * The line mark: a small black-and-white figure that eyes find before letters do.
 */

export interface LineMark {
	/** Side of the square that the path is drawn in. */
	readonly size: 24;
	/** SVG path, to be filled with the even-odd rule. */
	readonly path: string;
}

type Point = readonly [x: number, y: number];

/** Side of one of the nine cells. */
const cell = 8;

/**
 * Line mark: which figure stands for this line?
 *
 * Nine cells of three by three, each filled with one simple shape of our own (a block, a quarter or half of a disc, a
 * corner, a bar, a dot), chosen by a hash of the code; half of the marks are drawn white on black. Corners, sides and
 * the middle have shapes of their own, so that a mark looks like one figure and not like noise. There are about
 * 800 million figures: among 1,000 codes two alike are expected once in some 1,500 clubs (own arithmetic: pairs
 * divided by figures).
 *
 * @param code the line's code; capitals and outer spaces make no difference
 * @returns a path in a square of 24 by 24, same code, same path, on every device
 * @example
 * lineMark('bn-01').path === lineMark(' BN-01 ').path // => true
 */
export function lineMark(code: string): LineMark {
	const draw = draws(code.trim().normalize('NFC').toUpperCase());
	const inverted = draw(2) === 1;
	const parts: string[] = inverted ? [`M0 0H${3 * cell}V${3 * cell}H0Z`] : [];
	for (let turn = 0; turn < 4; turn++) {
		parts.push(place(cornerShapes[draw(cornerShapes.length)] ?? '', 0, 0, turn));
		parts.push(place(sideShapes[draw(sideShapes.length)] ?? '', cell, 0, turn));
	}
	parts.push(place(middleShapes[draw(middleShapes.length)] ?? '', cell, cell, 0));
	return { size: 24, path: parts.filter(Boolean).join('') };
}

// Each shape is drawn in one cell of 8 by 8 whose top left is 0,0. Upper-case commands only, so that turning them is
// turning their points. A = quarter arcs with the cell's radius, B = half discs, C = whole circles.
const block = 'M0,0L8,0L8,8L0,8Z';
const cornerShapes = [
	'',
	block,
	'M0,0L8,0A8,0,8Z',
	'M8,8L8,0A8,0,8Z-',
	'M0,0L8,0L0,8Z',
	'M8,8L8,0L0,8Z',
	'M8,0L0,0A8,8,8Z-',
	'M0,8L0,0A8,8,8Z',
	'M0,0L8,0L8,3L3,3L3,8L0,8Z'
];
const sideShapes = [
	'',
	block,
	'M0,0A4,8,0Z-',
	'M0,8A4,8,8Z',
	'M2.5,0L5.5,0L5.5,8L2.5,8Z',
	'M0,0L8,0L8,3L0,3Z',
	'M0,0L8,0L4,8Z',
	'M0,8L8,8L4,0Z',
	'M0,0L8,0A8,0,8Z',
	'M8,0L0,0A8,8,8Z-'
];
const middleShapes = [
	'',
	block,
	'M1,4A3,7,4ZM7,4A3,1,4Z',
	'M4,0L8,4L4,8L0,4Z',
	'M0,0L8,0L8,8L0,8ZM1.5,4A2.5,6.5,4ZM6.5,4A2.5,1.5,4Z',
	'M0,0L3,0L8,5L8,8L5,8L0,3Z'
];

/**
 * Moves a shape to its cell and turns it by quarters about the middle of the whole square. `A r,x,y` is an arc to x,y
 * that bows clockwise; a closing `Z-` says that the shape's arc bows the other way.
 */
function place(shape: string, left: number, top: number, quarters: number): string {
	return shape
		.split(/(?<=Z-?)(?=M)/)
		.map((piece) => {
			const sweep = piece.endsWith('-') ? 0 : 1;
			return piece.replace('-', '').replace(/([MLA])([^MLAZ]+)/g, (_all, command: string, list: string) => {
				const numbers = list.split(',').map(Number);
				const [x, y] = turned([(numbers.at(-2) ?? 0) + left, (numbers.at(-1) ?? 0) + top], quarters);
				return command === 'A'
					? `A${numbers[0]} ${numbers[0]} 0 0 ${sweep} ${x} ${y}`
					: `${command}${x} ${y}`;
			});
		})
		.join('');
}

function turned([x, y]: Point, quarters: number): Point {
	let at: Point = [x, y];
	for (let i = 0; i < quarters; i++) at = [3 * cell - at[1], at[0]];
	return at;
}

/** Draws numbers below a bound, the same ones for the same text: FNV-1a of the text, then the splitmix32 steps. */
function draws(text: string): (below: number) => number {
	let state = 0x811c9dc5;
	for (let i = 0; i < text.length; i++) state = Math.imul(state ^ text.charCodeAt(i), 0x01000193);
	let second = Math.imul(state ^ 0x5bd1e995, 0x9e3779b1);
	for (let i = text.length - 1; i >= 0; i--)
		second = Math.imul(second ^ text.charCodeAt(i), 0x85ebca6b) + (second >>> 13);
	return (below) => {
		state = (state + 0x9e3779b9) | 0;
		let mixed = Math.imul(state ^ (state >>> 16) ^ second, 0x21f0aaad);
		mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
		second = (second + mixed) | 0;
		return ((mixed ^ (mixed >>> 15)) >>> 0) % below;
	};
}
