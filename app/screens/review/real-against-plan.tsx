import { minutesOf, minutesText } from '../../words/time-words.ts';

/** The plan in grey above what was real in ink, on one scale; what ran late goes on past the plan's end post. */
export function RealAgainstPlan({ plannedMs, realMs }: { readonly plannedMs: number; readonly realMs: number }) {
  const whole = Math.max(plannedMs, realMs, 1);
  const share = (ms: number): string => `${(100 * ms) / whole}%`;
  return (
    <figure class="real-against-plan">
      <svg width="100%" height="32" aria-hidden="true">
        <rect class="real-plan" width={share(plannedMs)} height="6" />
        <rect class="real-post" x={share(plannedMs)} width="6" height="32" transform="translate(-6 0)" />
        <rect class="real-ink" y="12" width={share(realMs)} height="12" />
      </svg>
      <figcaption>
        Real against plan: {minutesOf(realMs)} against {minutesText(plannedMs)}
      </figcaption>
    </figure>
  );
}
