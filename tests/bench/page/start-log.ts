/** A sound that was handed to an audio clock. */
export type StartLogged = {
  readonly buffer: AudioBuffer;
  /** The node it goes into. */
  readonly into: AudioNode | null;
  readonly whenSeconds: number;
  /** Audio time at which it was called off or cut; null when it was let be. */
  readonly stoppedSeconds: number | null;
};

/**
 * Notes from now on every buffer source of this page that is started, with the `when` handed to it. Browsers hand out
 * no list of them, so start, stop and connect are wrapped; what they do stays as it is.
 */
export function logStarts(): readonly StartLogged[] {
  const log: { -readonly [Key in keyof StartLogged]: StartLogged[Key] }[] = [];
  const logged = new WeakMap<AudioScheduledSourceNode, (typeof log)[number]>();
  const into = new WeakMap<AudioNode, AudioNode>();
  const { start, connect } = AudioBufferSourceNode.prototype;
  const { stop } = AudioScheduledSourceNode.prototype;

  AudioBufferSourceNode.prototype.connect = function (
    this: AudioNode,
    target: AudioNode | AudioParam,
    ...more: never[]
  ) {
    if (target instanceof AudioNode) into.set(this, target);
    return Reflect.apply(connect, this, [target, ...more]);
  } as typeof connect;

  AudioBufferSourceNode.prototype.start = function (when = 0, ...more) {
    if (this.buffer !== null) {
      const entry = { buffer: this.buffer, into: into.get(this) ?? null, whenSeconds: when, stoppedSeconds: null };
      logged.set(this, entry);
      log.push(entry);
    }
    Reflect.apply(start, this, [when, ...more]);
  };

  AudioScheduledSourceNode.prototype.stop = function (when) {
    const entry = logged.get(this);
    if (entry !== undefined) entry.stoppedSeconds = Math.max(when ?? 0, this.context.currentTime);
    Reflect.apply(stop, this, when === undefined ? [] : [when]);
  };
  return log;
}
