import { useState } from 'preact/hooks';
import { type HallCard, STORED_VERSION } from '../../../src/records/stored-shapes.ts';

type HallCardFormProps = { readonly card: HallCard | null; readonly onCard: (card: HallCard) => void };

type Field = 'address' | 'defibrillator' | 'emergencyNumber';

const FIELDS: readonly (readonly [Field, string])[] = [
  ['address', 'Address of this hall, with the door to use'],
  ['defibrillator', 'Where the defibrillator is'],
  ['emergencyNumber', 'Emergency number'],
];

const LONGEST = 200;
const EMPTY: HallCard = { v: STORED_VERSION, address: '', defibrillator: '', emergencyNumber: '' };

/** What "Someone's hurt" shows. Kept as soon as a field is left; every field may stay empty. */
export function HallCardForm({ card, onCard }: HallCardFormProps) {
  // Until something is typed the kept card shows, which may come in later than this form.
  const [draft, setDraft] = useState<HallCard | null>(null);
  const shown = draft ?? card ?? EMPTY;
  const change = (field: Field, text: string): void => setDraft({ ...shown, [field]: text.slice(0, LONGEST) });
  return (
    <div class="hall-card">
      {FIELDS.map(([field, label]) => (
        <label key={field}>
          <span>{label}</span>
          <input
            type="text"
            inputMode={field === 'emergencyNumber' ? 'tel' : 'text'}
            maxLength={LONGEST}
            value={shown[field]}
            onInput={(event) => change(field, event.currentTarget.value)}
            onChange={() => onCard(shown)}
          />
        </label>
      ))}
    </div>
  );
}
