import type { OpenCorner } from '../engine.ts';
import { useView } from '../stores/viewStore.ts';
import { inputName, inputText } from './inputText.ts';

const NOT_DIMENSIONS = /\.(id|kind|label)$/;

/** The part in hand as it stands in the file: typed values as typed, values that nobody gave marked as assumed. */
export function PartInputs({ corner, part }: { corner: OpenCorner; part: number }) {
  const unit = useView((view) => view.unit);
  const entry = corner.design.corner.parts[part];
  const label = entry.label ?? corner.solids.find((solid) => solid.partIndex === part)?.label ?? entry.id;
  const inputs = corner.design.inputs.filter(
    ({ path }) => path.startsWith(`parts[${part}].`) && !NOT_DIMENSIONS.test(path),
  );
  return (
    <section className="part-inputs" aria-label={`${label}, dimensions`}>
      <header>
        <h2>{label}, as given</h2>
        <button
          type="button"
          className="quiet"
          aria-label="Close the dimensions"
          onClick={() => useView.setState({ part: undefined })}
        >
          Close
        </button>
      </header>
      <dl>
        {inputs.map((input) => (
          <div key={input.path} data-assumed={input.assumed}>
            <dt>{inputName(input.path)}</dt>
            <dd>
              {inputText(input, unit, corner.design.corner.unit)}
              {input.assumed && <span className="assumed"> assumed</span>}
            </dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
