import { textFromValue, valueFromText } from '../../../design/edit.ts';
import { inWords } from '../../../units/plainText.ts';
import type { InputProps } from './TextInput.tsx';

const YES_NO = ['yes', 'no'];

/** A select. A value that is not one of the choices stays until another is chosen. */
export function ChoiceInput({ id, field, spoken, invalid, describedBy, change }: InputProps) {
  const held = textFromValue(field.typed ?? field.fallback);
  const known = field.kind === 'yesNo' ? YES_NO : field.choices;
  const choices = known.includes(held) ? known : [held, ...known];
  return (
    <select
      id={id}
      value={held}
      aria-label={spoken}
      aria-describedby={describedBy || undefined}
      aria-invalid={invalid}
      onChange={({ target }) => change(valueFromText(field, target.value), inWords(target.value))}
    >
      {choices.map((choice) => (
        <option key={choice} value={choice}>
          {choice === '' ? 'not given' : inWords(choice)}
        </option>
      ))}
    </select>
  );
}
