import { canRun } from '../../../src/running-order/compile.ts';
import { FORMAT_NOT_RUN, NO_SUCH_PLAN } from '../../words/plan-words.ts';
import { NothingHere } from '../not-built.tsx';
import { Hall } from './hall.tsx';
import { OtherWindow } from './other-window.tsx';
import type { RoomProps } from './room-props.ts';

/** Who is in the hall: the class of this window, one of another window, or nobody yet. */
export function HallRoom(needs: RoomProps) {
  const { house } = needs;
  const visit = house.visit.value;
  if (visit !== null) {
    return (
      <Hall
        key={visit.recordId ?? 'rehearsal'}
        live={visit.live}
        plan={visit.plan}
        library={visit.library}
        recordId={visit.recordId}
        clock={needs.clock}
        monoClock={needs.monoClock}
        timers={needs.timers}
        card={needs.hallCard.value}
        onCard={needs.onHallCard}
        choices={needs.choices.value}
        onChoices={needs.onChoices}
        onRehearse={house.rehearse}
        onReadyAgain={house.readyAgain}
        onRunHere={house.takeFromOther}
      />
    );
  }
  if (house.seat.value !== 'other') return <EmptyHall {...needs} />;
  return (
    <main class="hall field-light">
      <OtherWindow onRunHere={house.takeFromOther} />
    </main>
  );
}

/** An address without a class: the plan is not there, or has a format that cannot be run yet, or is still being read. */
function EmptyHall({ route, shelf }: RoomProps) {
  const at = route.value;
  const shelved = at.at === 'hall' ? shelf.find(at.planId) : null;
  if (shelved !== null && !canRun(shelved.plan)) return <NothingHere title={shelved.plan.name} text={FORMAT_NOT_RUN} />;
  if (shelved === null && shelf.isRead.value) return <NothingHere title="No class" text={NO_SUCH_PLAN} />;
  return <main class="hall field-light" />;
}
