import { cpSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { BrowserContext, Page } from 'playwright-core';
import { inject } from 'vitest';

/** What was heard on the cues' own bus, by the page's clock. */
export type CueTap = {
  /** Instants at which a sound began after at least 50 ms without one. */
  readonly onsetsMs: readonly number[];
  /** The last instant known at which anything at all was to be heard. */
  readonly audibleUntilMs: number;
  /** Busses that were listened to: one a context. */
  readonly busses: number;
};

/** A reading of both clocks: the page's, and how much the audio clock of one context is behind it. */
type Reading = { readonly atMs: number; readonly behindMs: number };

/** What the audio thread of one context told, by its own clock, and when the page heard of it. */
type BusHeard = {
  readonly readings: Reading[];
  readonly told: { readonly what: 'onset' | 'audible'; readonly audioMs: number; readonly toldMs: number }[];
};

declare global {
  interface Window {
    /** One entry a bus. */
    cueTap: BusHeard[];
  }
}

const LISTENER = 'hear-cues.js';

/** The built app with a listener for the audio thread beside it: the policy of the page takes scripts from nowhere else. */
export function appWithListener(): string {
  const root = mkdtempSync(join(tmpdir(), 'hallpace-heard-'));
  cpSync(inject('builtApp'), root, { recursive: true });
  cpSync(join(dirname(fileURLToPath(import.meta.url)), LISTENER), join(root, LISTENER));
  return root;
}

/** Makes every page listen to its own cues. The app must be the one `appWithListener` gives. */
export async function tapCues(context: Pick<BrowserContext | Page, 'addInitScript'>): Promise<void> {
  await context.addInitScript(tapInPage, `./${LISTENER}`);
}

/** All that was heard so far. */
export async function readTap(page: Page): Promise<CueTap> {
  const busses = await page.evaluate(() => window.cueTap);
  const heard = busses.flatMap(({ readings, told }) =>
    told.map(({ what, audioMs, toldMs }) => ({ what, atMs: audioMs + behindAt(readings, toldMs) })),
  );
  return {
    onsetsMs: heard.filter(({ what }) => what === 'onset').map(({ atMs }) => atMs),
    audibleUntilMs: Math.max(...heard.map(({ atMs }) => atMs), Number.NEGATIVE_INFINITY),
    busses: busses.length,
  };
}

/** How many ms of readings around an instant are looked at. */
const AROUND_MS = 700;

/**
 * A fit of its own, not the app's. An audio clock goes in steps of some tens of ms, just after which it is least behind;
 * only readings from around the instant count, for it may jump.
 */
function behindAt(readings: readonly Reading[], atMs: number): number {
  const near = readings.filter((one) => Math.abs(one.atMs - atMs) < AROUND_MS);
  return Math.min(...near.map(({ behindMs }) => behindMs));
}

function tapInPage(listener: string): void {
  const heard: BusHeard[] = [];
  const tapped = new WeakSet<AudioNode>();

  /** Readings just after a step of the audio clock; those of a clock that stands say nothing. */
  const readClock = (context: BaseAudioContext, readings: Reading[]): void => {
    let lastMs = -1;
    setInterval(() => {
      const audioMs = context.currentTime * 1000;
      const atMs = performance.now();
      if (audioMs !== lastMs) readings.push({ atMs, behindMs: atMs - audioMs });
      lastMs = audioMs;
    }, 20);
  };

  const tap = async (bus: AudioNode): Promise<void> => {
    const { context } = bus;
    const one: BusHeard = { readings: [], told: [] };
    readClock(context, one.readings);
    await context.audioWorklet.addModule(listener);
    const node = new AudioWorkletNode(context, 'hear-cues');
    node.port.onmessage = ({ data }) => {
      const audioMs = (data.frame / context.sampleRate) * 1000;
      one.told.push({ what: data.what, audioMs, toldMs: performance.now() });
    };
    bus.connect(node);
    node.connect(context.destination);
    heard.push(one);
  };

  const connect = Reflect.get(AudioNode.prototype, 'connect') as (...to: unknown[]) => unknown;
  // Only cues are played from buffers; the node they go into is the bus that all of them share.
  Reflect.set(AudioNode.prototype, 'connect', function (this: AudioNode, ...to: unknown[]) {
    const [bus] = to;
    if (this instanceof AudioBufferSourceNode && bus instanceof GainNode && !tapped.has(bus)) {
      tapped.add(bus);
      void tap(bus);
    }
    return connect.apply(this, to);
  });
  window.cueTap = heard;
}
