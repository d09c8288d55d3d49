import type { MoveLibrary } from '../../../src/moves/move.ts';
import type { Block, Plan } from '../../../src/plan/plan.ts';
import { BigDigits } from '../../parts/big-digits.tsx';
import { ClassFloor } from '../../parts/class-floor.tsx';
import { InkLink } from '../../parts/ink-link.tsx';
import { KitDrawing } from '../../parts/kit-drawing.tsx';
import { PageTop } from '../../parts/page-top.tsx';
import { piecesOf, pieceText } from '../../words/kit-words.ts';
import { blockText, PART_NAMES, roundsText } from '../../words/plan-words.ts';
import { minutesOf } from '../../words/time-words.ts';
import { hashOf } from '../router.ts';
import { planLine } from './plan-line.ts';
import { SheetRow } from './sheet-row.tsx';
import { kitOf, rowsOf } from './sheet-rows.ts';
import './plan-sheet.css';

/** A class on paper, to be read. All moves of the plan are in the library. */
export function PlanSheet({ plan, library }: { readonly plan: Plan; readonly library: MoveLibrary }) {
  const line = planLine(plan, library);
  return (
    <main class="page sheet">
      <div class="sheet-head">
        <PageTop title={plan.name} back={{ href: hashOf({ at: 'plans' }), name: 'Plans' }} />
        {plan.about !== '' && <p class="sheet-about">{plan.about}</p>}
        <div class="sheet-totals">
          <BigDigits text={String(minutesOf(line.hallMs))} className="sheet-digits" />
          <p>
            <span class="spoken-only">{minutesOf(line.hallMs)} </span>minutes in the hall
            <br />
            {minutesOf(line.paperMs)} on paper: the moves alone
          </p>
        </div>
        <ClassFloor paper={line.paperMs} blocks={line.blockMs} whole={line.hallMs} />
        {line.canRun ? (
          <InkLink href={hashOf({ at: 'hall', planId: plan.id })}>Run this class</InkLink>
        ) : (
          <p class="sheet-not-yet">
            This plan can be read but not run yet: so far only blocks that all do together run.
          </p>
        )}
        <Kit plan={plan} library={library} />
      </div>
      <div class="sheet-blocks">
        {plan.blocks.map((block, index) => (
          <BlockSheet
            key={block.id}
            block={block}
            library={library}
            leadSeconds={index === 0 ? plan.countInSeconds : block.leadInSeconds}
          />
        ))}
      </div>
    </main>
  );
}

function Kit({ plan, library }: { readonly plan: Plan; readonly library: MoveLibrary }) {
  const pieces = piecesOf(kitOf(plan.blocks, library));
  if (pieces.length === 0) return <p class="sheet-no-kit">No kit.</p>;
  return (
    <ul class="sheet-kit" aria-label="Kit for each">
      {pieces.map(({ kit, count }) => (
        <li key={kit}>
          <KitDrawing kit={kit} height={40} />
          <span>{pieceText(kit, count)}</span>
        </li>
      ))}
    </ul>
  );
}

type BlockSheetProps = { readonly block: Block; readonly library: MoveLibrary; readonly leadSeconds: number };

function BlockSheet({ block, library, leadSeconds }: BlockSheetProps) {
  return (
    <section class="sheet-block" aria-labelledby={`block-${block.id}`}>
      <header class="sheet-block-head">
        <h2 id={`block-${block.id}`}>{block.name === '' ? PART_NAMES[block.part] : block.name}</h2>
        <span class="sheet-rounds">
          {Array.from({ length: block.rounds }, (_, round) => (
            <i key={round} />
          ))}
          <span class="spoken-only">{roundsText(block.rounds)}</span>
        </span>
        <p class="quiet">{blockText(block)}</p>
      </header>
      <ol class="sheet-rows">
        {rowsOf(block, library, leadSeconds).map((row) => (
          <SheetRow key={row.key} row={row} />
        ))}
      </ol>
    </section>
  );
}
