/** Every status word that a screen may show, with its shape and tone. The word carries the meaning. */
import type { ShapeName } from './shapes.ts';

/** `well` and `calm` need nothing; `heed` wants a look; `alarm` wants one now; `quiet` is over. */
export type Tone = 'well' | 'calm' | 'heed' | 'alarm' | 'quiet';
export interface StatusWord {
	readonly shape: ShapeName;
	readonly tone: Tone;
	/** What the word means, for the glossary and for those who ask. */
	readonly means: string;
}

const status = (shape: ShapeName, tone: Tone, means: string): StatusWord => ({ shape, tone, means });

export const statusWords = {
	holding: {
		'holds it': status('tick', 'well', 'The room has said so in the last half year.'),
		'not confirmed': status('clock', 'heed', 'Nobody has said so for half a year or more.'),
		'no longer has it': status('dash', 'quiet', 'The room has said that the fish are gone.'),
		unknown: status('question', 'quiet', 'Nobody has ever said.')
	},
	line: {
		safe: status('tankFull', 'well', 'As many rooms confirmed as the line wants.'),
		watch: status('tankHigh', 'calm', 'Fewer rooms than the line wants, or soon fewer if nobody answers.'),
		'at risk': status('tankLow', 'heed', 'Three rooms confirmed, or fewer.'),
		'last room': status('tankDrop', 'alarm', 'One room is left.'),
		'not asked yet': status('tankAsk', 'calm', 'No room has been asked since the line was entered.'),
		'possibly lost': status(
			'tankDoubt',
			'alarm',
			'No room is known to hold it, or none confirmed for a year.'
		),
		lost: status('tankCross', 'quiet', 'The coordinator has said that it is lost.'),
		retired: status('tankLid', 'quiet', 'The coordinator has ended it; its history stays.')
	},
	brood: {
		laid: status('step1', 'calm', 'Eggs have been laid.'),
		eyed: status('step2', 'calm', 'The eyes can be seen in the eggs.'),
		hatched: status('step3', 'calm', 'Out of the egg, not yet swimming. Also called wigglers.'),
		'free-swimming': status('step4', 'calm', 'Swimming and feeding.'),
		'growing on': status('step5', 'calm', 'Juveniles and grow-outs.'),
		sexed: status('step6', 'calm', 'Males and females can be told apart.'),
		'look known': status('step7', 'calm', 'Colour and fins can be read.'),
		adult: status('step7', 'calm', 'Grown up.'),
		'eggs in peat': status('closed', 'calm', 'Eggs kept damp in a bag until they are wetted.'),
		ended: status('dash', 'quiet', 'The group is no more.')
	},
	exchange: {
		proposed: status('step1', 'calm', 'Written down; nobody has been asked yet.'),
		asked: status('step2', 'calm', 'Sent to both rooms.'),
		agreed: status('step3', 'well', 'Both rooms said yes.'),
		bagged: status('step4', 'calm', 'The fish are in the bag.'),
		'handed over': status('step5', 'calm', 'The bag has changed hands.'),
		arrived: status('step6', 'well', 'The fish are in their new room.'),
		settled: status('step7', 'well', 'Counted again after seven days.'),
		'settled, no report': status('step7', 'quiet', 'Three weeks went by without a count.'),
		declined: status('barred', 'quiet', 'One room said no.'),
		'put off': status('wait', 'calm', 'Later, at a date that was said.'),
		'called off': status('barred', 'quiet', 'Whoever proposed it, or a room, took it back.'),
		lapsed: status('clock', 'quiet', 'Its meeting has gone by.'),
		failed: status('cut', 'heed', 'The fish died, were lost or went elsewhere.')
	},
	bag: {
		mentioned: status('question', 'heed', 'Somebody named this bag; the rest is not known yet.'),
		bagged: status('step4', 'calm', 'The fish are in the bag.'),
		'handed over': status('step5', 'calm', 'The bag has changed hands.'),
		arrived: status('step6', 'well', 'The fish are in their new room.'),
		settled: status('step7', 'well', 'Counted again after seven days.'),
		'given back': status('dash', 'quiet', 'Went back unopened.'),
		failed: status('cut', 'heed', 'The fish died, were lost or went elsewhere.')
	},
	certainty: {
		seen: status('dot', 'calm', 'Somebody saw it happen.'),
		counted: status('tally', 'calm', 'Somebody counted them.'),
		about: status('wave', 'calm', 'A good guess.'),
		'told by another': status('speech', 'calm', 'Said by someone with no part in it.'),
		'from an old list': status('list', 'quiet', 'Copied from an older list; nobody has checked it since.'),
		disputed: status('clash', 'heed', 'Two people say different things; both are kept.'),
		corrected: status('strike', 'calm', 'Somebody put it right later; the old words are kept.'),
		'not known': status('question', 'quiet', 'Nobody has said.')
	},
	tank: {
		closed: status('closed', 'heed', 'Nothing goes in or out.'),
		quarantine: status('drop', 'heed', 'New fish kept apart for four weeks or more.'),
		'suspected mix': status('clash', 'heed', 'Something may have got mixed. No blame: it is good to know.'),
		'spare fish': status('tick', 'calm', 'Fish that others may have.')
	},
	sharing: {
		'only on this device': status('phone', 'heed', 'Kept safely here; the club has not got it yet.'),
		'shared with the club': status('linked', 'calm', 'The club’s server has it on its disk.'),
		'kept for your room': status('door', 'calm', 'Only those who keep this room can read it.'),
		'told by': status('speech', 'heed', 'Waits for one tap of someone with a part in it.'),
		waiting: status('wait', 'heed', 'Waits for something that may still come.'),
		'not allowed': status('barred', 'heed', 'Kept, but it does not count: someone else has to decide this.'),
		'not understood': status('question', 'heed', 'Written by a newer app. It is kept and passed on.'),
		'two versions, needs a look': status(
			'twoSheets',
			'heed',
			'Two corrections that did not know of each other.'
		)
	}
} as const satisfies Record<string, Record<string, StatusWord>>;

export type StatusSubject = keyof typeof statusWords;
export type WordOf<Subject extends StatusSubject> = keyof (typeof statusWords)[Subject] & string;
