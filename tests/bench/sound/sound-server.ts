import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';

/** A PulseAudio of the bench's own with one sink that plays into nothing. */
export type SoundServer = {
  /** For the browser that is to play here. */
  readonly env: Readonly<Record<string, string>>;
  readonly suspendSink: (isSuspended: boolean) => void;
  readonly end: () => Promise<void>;
};

const START_MS = 10_000;

export function hasSoundServer(): boolean {
  return ['pulseaudio', 'pactl'].every((program) => spawnSync(program, ['--version']).status === 0);
}

export async function startSoundServer(): Promise<SoundServer> {
  const folder = mkdtempSync(join(tmpdir(), 'hallpace-sound-'));
  const socket = join(folder, 'socket');
  const script = join(folder, 'start.pa');
  writeFileSync(
    script,
    [
      `load-module module-native-protocol-unix auth-anonymous=1 socket=${socket}`,
      'load-module module-null-sink sink_name=bench rate=48000 channels=2 format=s16le',
      'set-default-sink bench\n',
    ].join('\n'),
  );
  const env = { PULSE_SERVER: `unix:${socket}`, XDG_RUNTIME_DIR: folder, HOME: folder };
  const server = spawn('pulseaudio', ['-n', '-F', script, '--exit-idle-time=-1', '--daemonize=no'], {
    stdio: 'ignore',
    env: { ...process.env, ...env },
  });
  process.once('exit', () => server.kill('SIGKILL'));
  const gone = new Promise<void>((settle) => server.once('close', () => settle()));
  for (const endMs = Date.now() + START_MS; !existsSync(socket); await wait(50)) {
    if (Date.now() > endMs) throw new Error('pulseaudio did not start');
  }
  return {
    env: { PULSE_SERVER: env.PULSE_SERVER },
    suspendSink: (isSuspended) => {
      execFileSync('pactl', ['suspend-sink', 'bench', isSuspended ? '1' : '0'], { env: { ...process.env, ...env } });
    },
    end: async () => {
      server.kill('SIGKILL');
      await gone;
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
