import { hasTypedText } from './hasTypedText.ts';

/**
 * A newer build that waits on this device. Nothing is taken by itself: the person says when, and never in the middle
 * of typing.
 */
export class AppUpdate {
	/** A newer build is here and waits. */
	ready = $state(false);
	/** Another tab took it; this one goes on with its own files until it is reloaded. */
	taken = $state(false);
	#taking = false;
	#registration: ServiceWorkerRegistration | undefined;

	/** Starts watching; the returned function stops it. */
	watch(): () => void {
		if (!('serviceWorker' in navigator)) return () => undefined;
		const { serviceWorker } = navigator;
		const stop = new AbortController();
		// The first worker taking charge of a fresh page is no update.
		let controlled = serviceWorker.controller !== null;
		serviceWorker.addEventListener(
			'controllerchange',
			() => {
				if (controlled) this.#changed();
				controlled = true;
			},
			{ signal: stop.signal }
		);
		void serviceWorker.getRegistration().then((registration) => {
			if (!registration || stop.signal.aborted) return;
			this.#registration = registration;
			this.#look();
			registration.addEventListener('updatefound', () => this.#follow(), { signal: stop.signal });
			this.#follow();
		});
		return () => stop.abort();
	}

	/**
	 * Takes the waiting build and reloads.
	 *
	 * @returns false when something is typed and not written yet: nothing was done
	 */
	take(): boolean {
		if (hasTypedText(document)) return false;
		this.#taking = true;
		if (this.taken) location.reload();
		else this.#registration?.waiting?.postMessage({ type: 'take-over' });
		return true;
	}

	#changed(): void {
		if (this.#taking) location.reload();
		else {
			this.ready = true;
			this.taken = true;
		}
	}

	#follow(): void {
		const next = this.#registration?.installing;
		next?.addEventListener('statechange', () => this.#look());
	}

	#look(): void {
		if (this.#registration?.waiting && navigator.serviceWorker.controller) this.ready = true;
	}
}
