import type { SeasonWeights } from '#planning/season/season.ts';
import type { SeasonSettings } from './seasonSettings.ts';

/**
 * Kinship of the whole line weighs ten times the inbreeding of the next broods: least mean kinship plus 0.1 times the
 * kinship of the pairs that breed was best over 20 generations in our own simulations; 0.05 keeps more variety, 0.2
 * less inbreeding.
 */
const lambdas = { variety: 20, normal: 10, inbreeding: 5 } as const;
/** For one unit of trip cost: a drive is two. Own choice. */
const trips = { little: 0.002, normal: 0.01, much: 0.05 } as const;

/** How the settings weigh one against the other: own choice where no source is named. */
export function seasonWeights(settings: SeasonSettings): SeasonWeights {
	return {
		lambda: lambdas[settings.freshness],
		worstCase: settings.careful,
		trip: trips[settings.saveTrips],
		bag: 0.005,
		// A room more is worth more than any trip: lines are lost for want of holders.
		holder: 0.5,
		waiting: 0.2,
		closeMates: 0.05,
		sendBack: 0.01
	};
}
