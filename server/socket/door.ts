/** Counts sockets: how many wait to be signed in, how many a device and a club hold at once. */

export interface Door {
	/** A socket comes; gives the way to say that it is through, or null when too many wait. */
	enter(): (() => void) | null;
	/** A signed-in socket opens; gives the way to say that it is gone, or null when there are too many. */
	open(club: string, deviceInDocument: string): (() => void) | null;
}

const maxWaiting = 500;

function createCounter(max: number) {
	const counts = new Map<string, number>();
	return {
		take(key: string): boolean {
			const count = counts.get(key) ?? 0;
			if (count >= max) return false;
			counts.set(key, count + 1);
			return true;
		},
		giveBack(key: string): void {
			const count = (counts.get(key) ?? 1) - 1;
			if (count > 0) counts.set(key, count);
			else counts.delete(key);
		}
	};
}

export function createDoor(max: {
	readonly maxSocketsPerDevice: number;
	readonly maxSocketsPerClub: number;
}): Door {
	const waiting = createCounter(maxWaiting);
	const clubs = createCounter(max.maxSocketsPerClub);
	const devices = createCounter(max.maxSocketsPerDevice);
	return {
		enter() {
			return waiting.take('') ? () => waiting.giveBack('') : null;
		},
		open(club, device) {
			if (!clubs.take(club)) return null;
			if (!devices.take(device)) {
				clubs.giveBack(club);
				return null;
			}
			return () => {
				clubs.giveBack(club);
				devices.giveBack(device);
			};
		}
	};
}
