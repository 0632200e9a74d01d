/** Another device that comes with a client id of its choice and is the first to use it. */
import { WebSocket } from 'ws';
import { WebsocketProvider } from 'y-websocket';
import * as decoding from 'lib0/decoding';
import { v7 } from 'uuid';
import * as Y from 'yjs';
import { documentKey, entriesRoot } from '#protocol/document.ts';
import { kithlineMessage, type Manifest, type ServerMessage } from '#protocol/messages.ts';
import { protocolVersion } from '#protocol/limits.ts';

/** @returns the id of the entry that it wrote, once the server has accepted it */
export async function bindLog(url: string, club: string, client: number, member: string): Promise<string> {
	const cookie = `seat=${member}.${member}-phone`;
	class Seated extends WebSocket {
		constructor(address: string) {
			super(address, { headers: { cookie } });
		}
	}
	const manifest = (await (
		await fetch(`${url}/api/clubs/${club}/manifest`, { headers: { cookie } })
	).json()) as Manifest;
	const doc = new Y.Doc();
	doc.clientID = client;
	const provider = new WebsocketProvider(
		`${url.replace('http', 'ws')}/sync/${club}`,
		manifest.audiences.find((one) => one.audience === 'club')!.document,
		doc,
		{
			disableBc: true,
			WebSocketPolyfill: Seated as never,
			params: { edition: manifest.edition, protocol: String(protocolVersion) }
		}
	);
	try {
		await new Promise((resolve) => provider.once('sync', resolve));
		const id = v7();
		const accepted = new Promise<void>((resolve) => {
			provider.messageHandlers[kithlineMessage] = (_encoder, decoder) => {
				const message = JSON.parse(decoding.readVarString(decoder)) as ServerMessage;
				if (message.type === 'accepted' && message.ids.some(([one]) => one === id)) resolve();
			};
		});
		const entry = {
			id,
			kind: 'group/counted',
			version: 1,
			by: member,
			device: `${member}-phone`,
			happened: '2026-03-14',
			about: ['group-1'],
			body: { note: 'foreign words' }
		};
		doc.getMap(entriesRoot).set(documentKey(client, 0), JSON.stringify(entry));
		await accepted;
		return id;
	} finally {
		provider.destroy();
		doc.destroy();
	}
}
