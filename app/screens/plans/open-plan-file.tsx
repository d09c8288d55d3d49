import { useState } from 'preact/hooks';
import { MOST_BYTES } from '../../../src/exchange/json-text.ts';
import { refuse } from '../../../src/records/parsed.ts';
import { planFileSentence } from '../../words/plan-file-words.ts';
import { hashOf } from '../router.ts';

/** What became of a file; `sentence` says in words why it was refused, and that nothing changed. */
export type PlanOpened =
  | { readonly ok: true; readonly planId: string; readonly name: string }
  | { readonly ok: false; readonly sentence: string };

type OpenPlanFileProps = {
  readonly last: PlanOpened | null;
  readonly onOpenFile: (file: File) => Promise<PlanOpened>;
  readonly onOpened: (opened: PlanOpened) => void;
};

/** Takes a plan file by its name or dropped on the floor, one at a time, and says what became of it. */
export function OpenPlanFile({ last, onOpenFile, onOpened }: OpenPlanFileProps) {
  const [isOver, setIsOver] = useState(false);

  const take = async (files: FileList | null | undefined): Promise<void> => {
    const file = files?.[0];
    if (file !== undefined) onOpened(await openBounded(file, onOpenFile));
  };
  const drop = (event: DragEvent): void => {
    event.preventDefault();
    setIsOver(false);
    void take(event.dataTransfer?.files);
  };
  const pick = (event: Event): void => {
    const input = event.currentTarget;
    if (!(input instanceof HTMLInputElement)) return;
    // Emptied once taken, so that the same file, mended meanwhile, can be opened again.
    void take(input.files).finally(() => {
      input.value = '';
    });
  };

  return (
    <section
      class={isOver ? 'open-plan field-dark' : 'open-plan'}
      aria-label="Plan files"
      onDragOver={(event) => {
        event.preventDefault();
        setIsOver(true);
      }}
      onDragLeave={() => setIsOver(false)}
      onDrop={drop}
    >
      <label class="open-plan-label">
        Open a plan file
        <input class="open-plan-input" type="file" accept=".json,application/json" onChange={pick} />
      </label>
      <p class="open-plan-answer" role="status">
        {last !== null && <Answer opened={last} />}
      </p>
    </section>
  );
}

/** What is far too large is not even read; a file that cannot be read, gone meanwhile or kept back, is said. */
async function openBounded(file: File, onOpenFile: OpenPlanFileProps['onOpenFile']): Promise<PlanOpened> {
  if (file.size > MOST_BYTES) return { ok: false, sentence: planFileSentence(refuse('tooLarge', [])) };
  try {
    return await onOpenFile(file);
  } catch {
    return { ok: false, sentence: 'This file could not be read. Nothing was changed.' };
  }
}

function Answer({ opened }: { readonly opened: PlanOpened }) {
  if (!opened.ok) return <>{opened.sentence}</>;
  return (
    <>
      Opened: <a href={hashOf({ at: 'plan', planId: opened.planId })}>{opened.name}</a>
    </>
  );
}
