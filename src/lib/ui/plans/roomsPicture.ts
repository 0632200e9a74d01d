/**
 * Where rooms stand on a circle, and how the arrows of the bags run between them. Rooms that swap stand side by side
 * as far as that can be had.
 */
export interface PictureRoom {
	readonly id: string;
	readonly name: string;
}
export interface PictureBag {
	readonly from: string;
	readonly to: string;
}
export interface PlacedRoom extends PictureRoom {
	readonly x: number;
	readonly y: number;
	/** Where its name stands, and from which side it is written. */
	readonly label: { readonly x: number; readonly y: number; readonly anchor: 'start' | 'middle' | 'end' };
	/** The name in lines that fit beside the circle. */
	readonly lines: readonly string[];
}
export interface PlacedBag {
	/** Place in the list of bags, from 0: the number that the list and the picture share is one more. */
	readonly bag: number;
	readonly path: string;
	/** Where its number stands. */
	readonly at: readonly [x: number, y: number];
}
export interface Picture {
	readonly width: number;
	readonly height: number;
	readonly rooms: readonly PlacedRoom[];
	readonly bags: readonly PlacedBag[];
}

type Point = readonly [x: number, y: number];
const nodeRadius = 9;
const numberRadius = 11;
const lettersInLine = 15;

/**
 * @param width of the picture in its own units: 360 on a phone, more at a desk
 */
export function roomsPicture(
	rooms: readonly PictureRoom[],
	bags: readonly PictureBag[],
	width: number
): Picture {
	const taking = rooms.filter((room) => bags.some((bag) => bag.from === room.id || bag.to === room.id));
	const ordered = inGoodOrder(taking, bags);
	const radius = Math.max(80, width / 2 - 108);
	const height = 2 * radius + 96;
	const centre: Point = [width / 2, height / 2];
	const at = new Map<string, Point>();
	const placed = ordered.map((room, i): PlacedRoom => {
		const angle = -Math.PI / 2 + (2 * Math.PI * i) / ordered.length;
		const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
		const point: Point = [centre[0] + radius * dx, centre[1] + radius * dy];
		at.set(room.id, point);
		const upright = Math.abs(dx) < 0.3;
		const lines = inLines(room.name);
		const middle = -((lines.length - 1) * 15) / 2;
		return {
			...room,
			x: point[0],
			y: point[1],
			lines,
			label: {
				x: point[0] + (upright ? 0 : Math.sign(dx) * (nodeRadius + 6)),
				y:
					point[1] +
					5 +
					(upright ? (dy < 0 ? -nodeRadius - 12 - (lines.length - 1) * 15 : nodeRadius + 14) : middle),
				anchor: upright ? 'middle' : dx > 0 ? 'start' : 'end'
			}
		};
	});
	return { width, height, rooms: placed, bags: arrows(bags, at, centre) };
}

/** The order round the circle with the least way for all bags together: swaps of two rooms until none helps. */
function inGoodOrder(rooms: readonly PictureRoom[], bags: readonly PictureBag[]): PictureRoom[] {
	const order = [...rooms];
	const length = () => {
		const place = new Map(order.map((room, i) => [room.id, i]));
		return bags.reduce((sum, bag) => {
			const apart = Math.abs((place.get(bag.from) ?? 0) - (place.get(bag.to) ?? 0));
			return sum + Math.min(apart, order.length - apart);
		}, 0);
	};
	let best = length();
	for (let turn = 0, better = true; better && turn < 20; turn++) {
		better = false;
		for (let i = 0; i < order.length; i++)
			for (let j = i + 1; j < order.length; j++) {
				[order[i], order[j]] = [order[j]!, order[i]!];
				const now = length();
				if (now < best) [best, better] = [now, true];
				else [order[i], order[j]] = [order[j]!, order[i]!];
			}
	}
	return order;
}

/** Where a number may stand along its arrow, the middle first. */
const shares = [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.2, 0.8];

/**
 * Each arrow bows to its own left, so that the two ways between two rooms lie apart; never out of the circle, where
 * the names stand. Numbers keep clear of rooms and of each other where there is a place for them.
 */
function arrows(bags: readonly PictureBag[], at: ReadonlyMap<string, Point>, centre: Point): PlacedBag[] {
	const before = new Map<string, number>();
	const count = (key: string) => {
		const nth = before.get(key) ?? 0;
		before.set(key, nth + 1);
		return nth;
	};
	const rooms = [...at.values()];
	const radius = Math.max(0, ...rooms.map((room) => apart(room, centre)));
	const taken: Point[] = [];
	return bags.flatMap((bag, i) => {
		const [from, to] = [at.get(bag.from), at.get(bag.to)];
		if (!from || !to || bag.from === bag.to) return [];
		const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
		const way = apart(from, to) || 1;
		const pull = 0.12;
		const middle: Point = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
		const bowed = (bow: number): Point => [
			middle[0] + (dy / way) * bow + (centre[0] - middle[0]) * pull,
			middle[1] - (dx / way) * bow + (centre[1] - middle[1]) * pull
		];
		let control = bowed(20 + count(`${bag.from} ${bag.to}`) * 26);
		// The outer side of two neighbours is full of names: there every arrow bows inward, each further than the last.
		if (apart(control, centre) > radius * 0.95) {
			const nth = count([bag.from, bag.to].sort().join(' and '));
			control = bowed(-(20 + nth * 34));
		} else count([bag.from, bag.to].sort().join(' and '));
		const start = towards(from, control, nodeRadius + 2);
		const end = towards(to, control, nodeRadius + 5);
		const path = `M${point(start)}Q${point(control)} ${point(end)}`;
		const room = (spot: Point) =>
			Math.min(
				...taken.map((other) => apart(spot, other) - 2 * numberRadius),
				...rooms.map((other) => apart(spot, other) - numberRadius - nodeRadius)
			);
		const spots = shares.map((share) => along(start, control, end, share));
		const spot = spots.find((one) => room(one) > 2) ?? spots.reduce((a, b) => (room(b) > room(a) ? b : a));
		taken.push(spot);
		return [{ bag: i, path, at: spot }];
	});
}

const point = ([x, y]: Point) => `${x.toFixed(1)} ${y.toFixed(1)}`;
const apart = (one: Point, other: Point) => Math.hypot(one[0] - other[0], one[1] - other[1]);

function towards(from: Point, to: Point, distance: number): Point {
	const way = apart(from, to) || 1;
	return [from[0] + ((to[0] - from[0]) / way) * distance, from[1] + ((to[1] - from[1]) / way) * distance];
}

function along(start: Point, control: Point, end: Point, share: number): Point {
	const mix = (i: 0 | 1) =>
		(1 - share) ** 2 * start[i] + 2 * (1 - share) * share * control[i] + share ** 2 * end[i];
	return [mix(0), mix(1)];
}

/** At most three lines; what is longer ends with dots. */
function inLines(name: string): string[] {
	const lines: string[] = [];
	for (const word of name.split(/\s+/)) {
		const last = lines.at(-1);
		if (last !== undefined && `${last} ${word}`.length <= lettersInLine)
			lines[lines.length - 1] += ` ${word}`;
		else lines.push(word);
	}
	const short = lines.map((line) =>
		line.length > lettersInLine ? `${line.slice(0, lettersInLine - 1)}…` : line
	);
	return short.length > 3 ? [...short.slice(0, 2), `${short[2]!.slice(0, lettersInLine - 2)} …`] : short;
}
