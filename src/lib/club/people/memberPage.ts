import type { MemberId, ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState, Said } from '#records/state.ts';
import { isStanding } from '../lines/holdings.ts';
import type { Asking } from '../question.ts';

export interface MemberPage {
	readonly id: MemberId;
	readonly name: string;
	readonly joined: Said | null;
	readonly left: Said | null;
	readonly roles: readonly {
		readonly words: string;
		readonly line: ThingId | null;
		readonly since: string;
	}[];
	readonly rooms: readonly { readonly id: ThingId; readonly name: string; readonly region: string }[];
	readonly lines: readonly { readonly id: ThingId; readonly name: string; readonly code: string }[];
	readonly isMe: boolean;
}

/** Member page: who is this, which rooms and lines do they keep, and what have they taken on? */
export function memberPage(
	state: ClubState,
	args: { readonly member: MemberId },
	asking: Asking
): MemberPage | null {
	const member = state.members.get(args.member);
	if (!member) return null;
	const names = namesOf(state, null);
	const lines = new Set<ThingId>();
	for (const group of new Set(state.groups.values())) {
		if (group.line && group.room && member.rooms.includes(group.room) && isStanding(group))
			lines.add(group.line);
	}
	return {
		id: member.id,
		name: names.member(member.id),
		joined: member.joined,
		left: member.left,
		roles: member.roles.map((role) => ({
			words:
				role.role === 'officer'
					? 'officer'
					: role.role === 'runner'
						? `runs the bags at ${names.meeting(role.of ?? '')}`
						: `${role.role} of ${names.line(role.of ?? '')}`,
			line: role.role === 'coordinator' || role.role === 'deputy' ? role.of : null,
			since: role.since.when.text
		})),
		rooms: member.rooms.map((id) => ({
			id,
			name: names.room(id),
			region: state.rooms.get(id)?.region ?? ''
		})),
		lines: [...lines].map((id) => ({ id, name: names.line(id), code: state.lines.get(id)?.code ?? '' })),
		isMe: member.id === asking.me
	};
}
