import { CAUTIONS, COMES_FIRST } from '../../words/caution-words.ts';

/** The usual cautions, to be read before a class; they stand in nobody's way. */
export function Cautions() {
  return (
    <section class="cautions" aria-labelledby="cautions">
      <h2 id="cautions">Take care</h2>
      <p class="cautions-first">{COMES_FIRST}</p>
      <dl>
        {CAUTIONS.map(({ about, text }) => (
          <div key={about}>
            <dt>{about}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
