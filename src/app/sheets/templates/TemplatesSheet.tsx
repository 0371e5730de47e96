import { useId, useMemo, useState } from 'react';
import { figuresIn } from '../../../report/figures.ts';
import { PAPERS, type Paper } from '../../../report/pdf/paper.ts';
import { PROCESSES } from '../../../report/templates/cutting.ts';
import { type Drawing, drawingOf, TEMPLATE_CAUTION } from '../../../report/templates/drawing.ts';
import { shapeSvg } from '../../../report/templates/svg.ts';
import type { FlatPlate } from '../../../solids/flatPlates/flatPlate.ts';
import { download } from '../../kit/download.ts';
import { readKFactor, readLength } from '../../kit/readTyped.ts';
import { SheetFrame } from '../../kit/SheetFrame.tsx';
import { TypedRow } from '../../kit/TypedField.tsx';
import { useDocument } from '../../state/documentStore.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { problemSentence } from '../../state/fieldText.ts';
import { useFileUnit } from '../../state/useFileUnit.ts';
import { useView } from '../../state/viewStore.ts';
import type { TemplateSettings } from '../../workers/templates/templatesWorker.ts';
import { useTemplates } from './templatesStore.ts';
import { usePlates, useZip } from './usePlates.ts';

/** Templates of the flat plates: what is cut, a preview of each, and their files. */
export default function TemplatesSheet({ corner, onClose }: { corner: OpenCorner; onClose(): void }) {
  const unit = useView((view) => view.unit);
  const fileUnit = useFileUnit();
  const { process, paper, kerf, bendRadius, kFactor } = useTemplates();
  const [kerfRead, radiusRead, kRead] = [
    readLength(kerf, fileUnit, 0.01, 10),
    readLength(bendRadius, fileUnit, 0, 100),
    readKFactor(kFactor),
  ];
  const bend =
    radiusRead.value === undefined ? undefined : { radiusMm: radiusRead.value, kFactor: kRead.value ?? 0.5 };
  const state = usePlates(corner, bend, unit);
  const isWrong = [kerfRead, radiusRead, kRead].some(({ problem }) => problem !== undefined);
  const settings: TemplateSettings = {
    unit,
    cutting: { process, kerfMm: kerfRead.value },
    paper: paper ?? (unit === 'in' ? 'Letter' : 'A4'),
  };
  return (
    <SheetFrame title="Templates" wide onClose={onClose}>
      <p className="bench-kind">
        Drawings at true scale of every flat plate, as DXF, SVG and PDF. Bent plates are developed flat.
      </p>
      <Choice
        label="Cut by"
        value={process ?? ''}
        options={[['', 'not chosen'], ...PROCESSES.map((one) => [one, one] as const)]}
        onChoose={(value) => useTemplates.setState({ process: PROCESSES.find((one) => one === value) })}
      />
      <TypedRow
        label="Width of the cut"
        title="Kerf: how far the tool must be moved. Leave empty if it is unknown."
        kind="length"
        text={kerf}
        unit={fileUnit}
        problem={problemOf('Width of the cut', kerfRead.problem)}
        onType={(text) => useTemplates.setState({ kerf: text })}
      />
      <TypedRow
        label="Bend radius"
        title="Inside radius of the bends. Leave empty for sharp folds, as the solids have them."
        kind="length"
        text={bendRadius}
        unit={fileUnit}
        problem={problemOf('Bend radius', radiusRead.problem)}
        onType={(text) => useTemplates.setState({ bendRadius: text })}
      />
      <TypedRow
        label="K factor"
        title="Place of the neutral axis in a bend, as a fraction of the thickness from the inside. Used with a bend radius."
        text={kFactor}
        placeholder="0.5"
        problem={problemOf('K factor', kRead.problem)}
        onType={(text) => useTemplates.setState({ kFactor: text })}
      />
      <Choice
        label="Paper"
        value={settings.paper}
        options={PAPERS.map((one) => [one, one] as const)}
        onChoose={(value) => useTemplates.setState({ paper: value as Paper })}
      />
      {state.kind === 'failed' && (
        <p className="bench-problem" role="alert">
          The plates cannot be drawn: {state.why}
        </p>
      )}
      {state.kind === 'building' && (
        <p className="bench-kind" role="status">
          Drawing the plates
        </p>
      )}
      {state.kind === 'built' && state.plates.length === 0 && (
        <p className="bench-kind" role="status">
          This corner has no flat plate. Add a part of kind upright or plate, or a bracket to the caliper.
        </p>
      )}
      {state.kind === 'built' && state.plates.length > 0 && (
        <Plates plates={state.plates} settings={settings} isWrong={isWrong} />
      )}
    </SheetFrame>
  );
}

const problemOf = (label: string, problem: string | undefined) =>
  problem === undefined ? undefined : problemSentence(label, problem);

interface ChoiceProps {
  label: string;
  value: string;
  options: readonly (readonly [value: string, text: string])[];
  /** Gives the choice the width that its label leaves. */
  wide?: boolean;
  onChoose(value: string): void;
}

function Choice({ label, value, options, wide = false, onChoose }: ChoiceProps) {
  const id = useId();
  return (
    <div className={wide ? 'bench-row wide-choice' : 'bench-row'}>
      <label htmlFor={id}>{label}</label>
      <select id={id} value={value} onChange={({ target }) => onChoose(target.value)}>
        {options.map(([one, text]) => (
          <option key={one} value={one}>
            {text}
          </option>
        ))}
      </select>
    </div>
  );
}

interface PlatesProps {
  plates: readonly FlatPlate[];
  settings: TemplateSettings;
  /** A value is wrong: no file is made with it. */
  isWrong: boolean;
}

function Plates({ plates, settings, isWrong }: PlatesProps) {
  const { unit, cutting } = settings;
  const chosen = useTemplates(({ plate }) => plate);
  const plate = plates.find(({ id }) => id === chosen) ?? plates[0];
  const { process, kerfMm } = cutting;
  const drawing = useMemo(
    () => drawingOf(plate, { process, kerfMm }, figuresIn(unit)),
    [plate, process, kerfMm, unit],
  );
  return (
    <>
      <Choice
        label="Plate"
        value={plate.id}
        options={plates.map(({ id, name }) => [id, name])}
        wide
        onChoose={(id) => useTemplates.setState({ plate: id })}
      />
      <Preview drawing={drawing} />
      <SaveButtons plates={plates} plate={plate} settings={settings} isWrong={isWrong} />
      <section aria-label="About the plate">
        <ul className="bench-kind sentences">
          {[...drawing.facts, ...drawing.warnings, ...drawing.holes, ...drawing.notes, TEMPLATE_CAUTION].map(
            (text) => (
              <li key={text}>{text}</li>
            ),
          )}
        </ul>
      </section>
    </>
  );
}

/** The plate as a picture, on white paper in both themes as it is printed. */
function Preview({ drawing }: { drawing: Drawing }) {
  const { plate } = drawing;
  const source = `data:image/svg+xml,${encodeURIComponent(shapeSvg(drawing))}`;
  return <img className="template-preview" src={source} alt={`Template of ${plate.name}`} />;
}

function SaveButtons({ plates, plate, settings, isWrong }: PlatesProps & { plate: FlatPlate }) {
  const stem = useDocument(({ fileName }) => fileName).replace(/(\.corner)?(\.json)?$/, '');
  const zip = useZip();
  const [status, setStatus] = useState<{ text: string; isProblem: boolean }>();
  const save = async (which: readonly FlatPlate[], name: string) => {
    setStatus({ text: 'Making the files', isProblem: false });
    try {
      const bytes = await zip(which, settings);
      download(name, new Blob([bytes], { type: 'application/zip' }));
      setStatus({ text: `Saved: ${name}`, isProblem: false });
    } catch (error) {
      setStatus({ text: `The files cannot be made: ${(error as Error).message}`, isProblem: true });
    }
  };
  return (
    <>
      <div className="vary-buttons">
        <button
          type="button"
          disabled={isWrong}
          onClick={() => void save([plate], `${stem}-${plate.id}.zip`)}
        >
          Save this plate
        </button>
        <button type="button" disabled={isWrong} onClick={() => void save(plates, `${stem}-templates.zip`)}>
          Save all {plates.length}
        </button>
      </div>
      {status !== undefined && (
        <p
          className={status.isProblem ? 'bench-problem' : 'bench-kind'}
          role={status.isProblem ? 'alert' : 'status'}
        >
          {status.text}
        </p>
      )}
    </>
  );
}
