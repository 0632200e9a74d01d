/** Every kind of entry that this app knows. Adding one: a file under kinds/ and a line here. */
import { bagArrived } from './kinds/bags/arrived.ts';
import { bagBagged } from './kinds/bags/bagged.ts';
import { bagDayCount } from './kinds/bags/dayCount.ts';
import { bagFailed } from './kinds/bags/failed.ts';
import { bagGivenBack } from './kinds/bags/givenBack.ts';
import { bagHandedOver } from './kinds/bags/handedOver.ts';
import { bagJoined } from './kinds/bags/joined.ts';
import { bagParted } from './kinds/bags/parted.ts';
import { bagSettled } from './kinds/bags/settled.ts';
import { clubDistanceSaid } from './kinds/club/distanceSaid.ts';
import { keeperAdded } from './kinds/club/keeperAdded.ts';
import { keeperRemoved } from './kinds/club/keeperRemoved.ts';
import { memberJoined } from './kinds/club/memberJoined.ts';
import { memberLeft } from './kinds/club/memberLeft.ts';
import { memberRenamed } from './kinds/club/memberRenamed.ts';
import { clubOpened } from './kinds/club/opened.ts';
import { roleEnded } from './kinds/club/roleEnded.ts';
import { roleGiven } from './kinds/club/roleGiven.ts';
import { roomDescribed } from './kinds/club/roomDescribed.ts';
import { roomOpened } from './kinds/club/roomOpened.ts';
import { exchangeAnswered } from './kinds/exchanges/answered.ts';
import { exchangeAsked } from './kinds/exchanges/asked.ts';
import { exchangeCalledOff } from './kinds/exchanges/calledOff.ts';
import { exchangeProposed } from './kinds/exchanges/proposed.ts';
import { groupChanged } from './kinds/groups/changed.ts';
import { groupClosed } from './kinds/groups/closed.ts';
import { groupCounted } from './kinds/groups/counted.ts';
import { groupEggsStored } from './kinds/groups/eggsStored.ts';
import { groupMixed } from './kinds/groups/mixed.ts';
import { groupMoved } from './kinds/groups/moved.ts';
import { groupNamed } from './kinds/groups/named.ts';
import { groupQuarantineSet } from './kinds/groups/quarantineSet.ts';
import { groupReopened } from './kinds/groups/reopened.ts';
import { groupSpareOffered } from './kinds/groups/spareOffered.ts';
import { groupStageReached } from './kinds/groups/stageReached.ts';
import { groupStarted } from './kinds/groups/started.ts';
import { lineDescribed } from './kinds/lines/described.ts';
import { lineOpened } from './kinds/lines/opened.ts';
import { lineRulesSet } from './kinds/lines/rulesSet.ts';
import { lineStandardSet } from './kinds/lines/standardSet.ts';
import { lineStateSaid } from './kinds/lines/stateSaid.ts';
import { lineWantEnded } from './kinds/lines/wantEnded.ts';
import { lineWanted } from './kinds/lines/wanted.ts';
import { meetingAttending } from './kinds/meetings/attending.ts';
import { meetingCalledOff } from './kinds/meetings/calledOff.ts';
import { meetingPlanned } from './kinds/meetings/planned.ts';
import { roomCheckedIn } from './kinds/rooms/checkedIn.ts';
import { roomClosed } from './kinds/rooms/closed.ts';
import { privateWords } from './kinds/rooms/privateWords.ts';
import { roomReopened } from './kinds/rooms/reopened.ts';
import { roomTanksFree } from './kinds/rooms/tanksFree.ts';
import { spawnParentsSaid } from './kinds/spawns/parentsSaid.ts';
import { spawnSeen } from './kinds/spawns/seen.ts';
import { wordConfirmed } from './kinds/words/confirmed.ts';
import { wordDecided } from './kinds/words/decided.ts';
import { wordDisputed } from './kinds/words/disputed.ts';
import { officersWords } from './kinds/words/officersWords.ts';
import { wordWithdrawn } from './kinds/words/withdrawn.ts';
import type { Kind } from './kind.ts';

const list = [
	bagArrived,
	bagBagged,
	bagDayCount,
	bagFailed,
	bagGivenBack,
	bagHandedOver,
	bagJoined,
	bagParted,
	bagSettled,
	clubDistanceSaid,
	keeperAdded,
	keeperRemoved,
	memberJoined,
	memberLeft,
	memberRenamed,
	clubOpened,
	roleEnded,
	roleGiven,
	roomDescribed,
	roomOpened,
	exchangeAnswered,
	exchangeAsked,
	exchangeCalledOff,
	exchangeProposed,
	groupChanged,
	groupClosed,
	groupCounted,
	groupEggsStored,
	groupMixed,
	groupMoved,
	groupNamed,
	groupQuarantineSet,
	groupReopened,
	groupSpareOffered,
	groupStageReached,
	groupStarted,
	lineDescribed,
	lineOpened,
	lineRulesSet,
	lineStandardSet,
	lineStateSaid,
	lineWantEnded,
	lineWanted,
	meetingAttending,
	meetingCalledOff,
	meetingPlanned,
	roomCheckedIn,
	roomClosed,
	privateWords,
	roomReopened,
	roomTanksFree,
	spawnParentsSaid,
	spawnSeen,
	wordConfirmed,
	wordDecided,
	wordDisputed,
	officersWords,
	wordWithdrawn
];

/** By name; bodies are checked against each kind's schema before anything else touches them. */
export const kinds: ReadonlyMap<string, Kind<unknown>> = new Map(
	list.map((kind) => [kind.kind, kind as unknown as Kind<unknown>])
);
