export interface Destination {
	readonly path: string;
	readonly label: string;
	/** First parts of addresses below a club that belong here. */
	readonly covers: readonly string[];
	/** Drawn on a grid of 24, line of 2. */
	readonly sign: string;
}

/** The places of the bar, in the order of the thumb; the last one covers whatever no other does. */
export const destinations: readonly Destination[] = [
	{ path: 'lines', label: 'Lines', covers: ['lines'], sign: 'M4 6H20M4 12H20M4 18H13' },
	{
		path: 'room',
		label: 'My room',
		covers: ['room', 'rooms', 'groups', 'spawns'],
		sign: 'M3 5V19H21V5M3 10H21M3 14.5C6 12.5 9 16.5 12 14.5S18 12.5 21 14.5'
	},
	{
		path: 'bags',
		label: 'Bags',
		covers: ['bags', 'labels', 'meetings'],
		sign: 'M9 3 12 5 15 3V8H9ZM9 8C6 10.5 5 13 5 15.5C5 19.5 8 21 12 21S19 19.5 19 15.5C19 13 18 10.5 15 8'
	},
	{
		path: 'exchanges',
		label: 'Exchanges',
		covers: ['exchanges', 'plans'],
		sign: 'M4 8H19M15 4 19 8 15 12M20 16H5M9 12 5 16 9 20'
	},
	{ path: 'more', label: 'More', covers: [], sign: 'M3.5 12H6.5M10.5 12H13.5M17.5 12H20.5' }
];
