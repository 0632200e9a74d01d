/**
 * Small shapes that stand beside words, drawn on a grid of 16: a line of 2 (`stroke`) and filled parts (`fill`).
 * A line's state is a tank with its water level; progress is a row of steps; the rest are simple signs of our own.
 */
export interface Shape {
	readonly stroke?: string;
	readonly fill?: string;
}

const tank = 'M2 2V14H14V2';
const ring = 'M8 2A6 6 0 1 1 8 14A6 6 0 1 1 8 2Z';

export const shapes = {
	tankFull: { stroke: tank, fill: 'M4 4H12V12H4Z' },
	tankHigh: { stroke: tank, fill: 'M4 7H12V12H4Z' },
	tankLow: { stroke: tank, fill: 'M4 10H12V12H4Z' },
	tankDrop: {
		stroke: tank,
		fill: 'M8 4.5C9.5 6.5 10.5 7.8 10.5 9.2A2.5 2.5 0 0 1 5.5 9.2C5.5 7.8 6.5 6.5 8 4.5Z'
	},
	tankAsk: { stroke: 'M2 2V5M2 8V11M2 14H5M8 14H11M14 14V11M14 8V5M14 2V2.1' },
	tankDoubt: { stroke: `${tank}M5.5 5.5C5.5 2.5 10.5 2.5 10.5 5.3C10.5 7.2 8 7 8 9M8 11.2V11.3` },
	tankCross: { stroke: `${tank}M5 4 11 11M11 4 5 11` },
	tankLid: { stroke: 'M2 4V14H14V4M1 3H15' },
	tick: { stroke: 'M2 9 6 13 14 3' },
	clock: { stroke: `${ring}M8 4.5V8L11 10` },
	dash: { stroke: 'M3 8H13' },
	question: { stroke: 'M4.5 5.5C4.5 0.5 11.5 0.5 11.5 5.2C11.5 8 8 8 8 10.5M8 14V14.1' },
	dot: { fill: 'M8 3.5A4.5 4.5 0 1 1 8 12.5A4.5 4.5 0 1 1 8 3.5Z' },
	tally: { stroke: 'M3 3V13M6.5 3V13M10 3V13M1 11.5 15 4.5' },
	wave: { stroke: 'M1.5 6C4 3 6 3 8 5.5S12 8 14.5 5M1.5 11.5C4 8.5 6 8.5 8 11S12 13.5 14.5 10.5' },
	speech: { stroke: 'M2 3H14V11H7L4 14V11H2Z' },
	list: { stroke: 'M2 3.5H14M2 8H14M2 12.5H9' },
	clash: { fill: 'M1 3 7 8 1 13ZM15 3 9 8 15 13Z' },
	strike: { stroke: 'M2 5H14M2 11H14M2 14 14 2' },
	phone: { stroke: 'M4 1.5H12V14.5H4ZM7 12H9' },
	linked: {
		stroke:
			'M5.5 3A3.5 3.5 0 1 1 5.5 10A3.5 3.5 0 1 1 5.5 3ZM10.5 6A3.5 3.5 0 1 1 10.5 13A3.5 3.5 0 1 1 10.5 6Z'
	},
	door: { stroke: 'M3 14V2H13V14M1 14H15M10 8V8.1' },
	wait: { stroke: 'M4 2H12L4 14H12Z' },
	barred: { stroke: `${ring}M4 12 12 4` },
	twoSheets: { stroke: 'M2 5H10V14H2ZM6 5V2H14V11H10' },
	heed: { stroke: 'M8 5.5V9M8 11.5V11.6M8 1.5 15 14H1Z' },
	note: { stroke: `${ring}M8 7.5V11M8 4.9V5` },
	closed: { stroke: 'M2 2H14V14H2ZM5 8H11' },
	drop: { fill: 'M8 1C11 5 13 7.5 13 10A5 5 0 0 1 3 10C3 7.5 5 5 8 1Z' },
	cut: { stroke: 'M2 8A6 6 0 0 1 8 2M14 8A6 6 0 0 1 8 14M3 13 13 3' },
	step1: steps(1, 7),
	step2: steps(2, 7),
	step3: steps(3, 7),
	step4: steps(4, 7),
	step5: steps(5, 7),
	step6: steps(6, 7),
	step7: steps(7, 7)
} as const satisfies Record<string, Shape>;

export type ShapeName = keyof typeof shapes;

/** A stair: `done` steps filled, the rest only marked on the ground. */
function steps(done: number, all: number): Shape {
	let fill = '';
	for (let i = 0; i < all; i++) {
		const x = 0.6 + i * 2.15;
		const y = i < done ? 12 - (i + 1) * 1.55 : 12.4;
		fill += `M${x.toFixed(2)} ${y.toFixed(2)}h1.6V14h-1.6Z`;
	}
	return { fill };
}
