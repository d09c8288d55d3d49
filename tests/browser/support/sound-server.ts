import { type ChildProcess, execFile, spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { promisify } from 'node:util';

const run = promisify(execFile);

/** A sound server of the test's own with one sound device that plays into nothing. */
export type SoundServer = {
  /** For the environment of a browser that is to play here. */
  readonly env: Readonly<Record<string, string>>;
  /** The device takes nothing more, as one that sleeps. */
  readonly suspend: (isSuspended: boolean) => Promise<void>;
  /** The device is gone, as a loudspeaker out of reach. */
  readonly unplug: () => Promise<void>;
  /** Another device is there. */
  readonly plugIn: (name: string) => Promise<void>;
  /** The loudest sample that the device got in so long; 1 is full scale. */
  readonly loudestIn: (name: string, forMs: number) => Promise<number>;
  readonly end: () => Promise<void>;
};

/** True where the programs for it are installed. */
export function hasSoundServer(): boolean {
  return ['pulseaudio', 'pactl', 'parec'].every((program) => spawnSync(program, ['--version']).error === undefined);
}

const FIRST_DEVICE = 'hall';
const SAMPLES = ['--format=s16le', '--rate=48000', '--channels=1'];

/** Starts the server and waits until it answers. */
export async function startSoundServer(): Promise<SoundServer> {
  const folder = mkdtempSync(join(tmpdir(), 'hallpace-sound-'));
  const socket = join(folder, 'pulse.sock');
  const script = join(folder, 'pulse.pa');
  writeFileSync(script, `load-module module-native-protocol-unix auth-anonymous=1 socket=${socket}\n`);
  const flags = ['-n', '-F', script, '--exit-idle-time=-1', '--daemonize=no', '--use-pid-file=no'];
  const ownPlaces = { HOME: folder, XDG_RUNTIME_DIR: folder, XDG_CONFIG_HOME: folder };
  const program = spawn('pulseaudio', flags, { stdio: 'ignore', env: { ...process.env, ...ownPlaces } });
  const env = { PULSE_SERVER: `unix:${socket}` };
  const ask = (...words: string[]) => run('pactl', words, { env: { ...process.env, ...env } });
  while (!existsSync(socket)) await wait(20);

  const plugIn = async (name: string): Promise<void> => {
    await ask('load-module', 'module-null-sink', `sink_name=${name}`, 'rate=48000', 'channels=2');
    await ask('set-default-sink', name);
  };
  await plugIn(FIRST_DEVICE);

  return {
    env,
    suspend: async (isSuspended) => void (await ask('suspend-sink', FIRST_DEVICE, isSuspended ? '1' : '0')),
    unplug: async () => void (await ask('unload-module', 'module-null-sink')),
    plugIn,
    loudestIn: (name, forMs) => loudest([`--device=${name}.monitor`, ...SAMPLES], env, forMs),
    end: async () => {
      await ended(program);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

async function loudest(
  words: readonly string[],
  env: Readonly<Record<string, string>>,
  forMs: number,
): Promise<number> {
  const parts: Buffer[] = [];
  const recorder = spawn('parec', words, { stdio: ['ignore', 'pipe', 'ignore'], env: { ...process.env, ...env } });
  recorder.stdout.on('data', (part: Buffer) => parts.push(part));
  await wait(forMs);
  await ended(recorder);
  const bytes = Buffer.concat(parts);
  let most = 0;
  for (let at = 0; at + 1 < bytes.length; at += 2) most = Math.max(most, Math.abs(bytes.readInt16LE(at)));
  return most / 32_768;
}

function ended(program: ChildProcess): Promise<void> {
  return new Promise((done) => {
    program.once('exit', () => done());
    program.kill('SIGKILL');
  });
}
