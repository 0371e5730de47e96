import { useMemo, useRef, useState } from 'react';
import type { Problem } from '../../design/problem.ts';
import { FieldHelp } from '../bench/FieldHelp.tsx';
import { problemInWords, unitInWords } from '../bench/fieldText.ts';
import { PartSketch } from '../bench/sketch/PartSketch.tsx';
import { useFieldHelp } from '../bench/useFieldHelp.ts';
import { mayLeave } from '../keep/leaving.ts';
import { Dialog } from '../panels/Dialog.tsx';
import { useSession } from '../session.ts';
import { useCorner } from '../stores/cornerStore.ts';
import { useDocument } from '../stores/documentStore.ts';
import { useView } from '../stores/viewStore.ts';
import { About } from './About.tsx';
import { type Answers, noAnswers } from './answers.ts';
import { fileNameOf, newCorner, placeProblems } from './newCorner.ts';
import { type Asked, QUESTION_GROUPS, QUESTIONS } from './questions.ts';
import { StartField } from './StartField.tsx';
import { startSketch } from './startSketch.ts';
import { useStart } from './startStore.ts';
import { usualText } from './usualText.ts';

/** What the engine found that the file alone does not show, with the answers of which it found it. */
interface Refused {
  answers: Answers;
  problems: readonly Problem[];
}

/** A new corner by the few dimensions that matter first. What is typed is kept when the sheet is closed. */
export function StartSheet() {
  const session = useSession();
  const shownUnit = useView((view) => view.unit);
  const answers = useStart((state) => state.answers) ?? noAnswers(shownUnit);
  const [left, setLeft] = useState<ReadonlySet<Asked>>(
    () => new Set(QUESTIONS.flatMap(({ key }) => (answers[key] === '' ? [] : [key]))),
  );
  const [inHand, setInHand] = useState<Asked>();
  const [refused, setRefused] = useState<Refused>();
  const [asked, setAsked] = useState(false);
  const form = useRef<HTMLDivElement>(null);
  const made = useMemo(() => newCorner(answers), [answers]);
  const sketch = useMemo(() => startSketch(made.sizes, made.points), [made]);
  const found = placeProblems(refused?.answers === answers ? refused.problems : []);
  const wrong = { ...found.placed, ...made.wrong };
  const others = [...made.others, ...found.others];
  const measured = QUESTIONS.filter(({ key }) => answers[key].trim() !== '').length;

  const change = (changed: Partial<Answers>) => useStart.setState({ answers: { ...answers, ...changed } });
  const close = () => useStart.setState({ open: false });
  /** A text is not told off while it is typed for the first time. */
  const problemAt = (key: Asked) => (asked || left.has(key) || answers[key] === '' ? wrong[key] : undefined);

  const make = async () => {
    setAsked(true);
    const first = QUESTIONS.find(({ key }) => wrong[key] !== undefined);
    if (first !== undefined) form.current?.querySelector<HTMLInputElement>(`[name=${first.key}]`)?.focus();
    if (first !== undefined || others.length > 0 || !mayLeave()) return;
    const { source } = made;
    const fileName = fileNameOf(String(source.name));
    const before = useCorner.getState().opened;
    await session.open(fileName, JSON.stringify(source), {
      unsaved: true,
      label: `Started ${source.name}`,
      onProblems: (problems) => setRefused({ answers, problems }),
    });
    // Not where it was refused, nor where a file that was dropped meanwhile went before it.
    const isOpen = useCorner.getState().opened > before && useDocument.getState().fileName === fileName;
    if (isOpen) useStart.setState({ open: false, answers: undefined });
  };

  const { help, watch } = useFieldHelp();

  return (
    <Dialog
      title="New corner"
      closeLabel="Close, keep what is typed"
      className="start"
      onClose={close}
      actions={
        <>
          <button
            type="button"
            disabled={measured === 0 && answers.name === ''}
            onClick={() => {
              if (window.confirm('Empty every field of the new corner?'))
                useStart.setState({ answers: undefined });
            }}
          >
            Empty all
          </button>
          <button type="button" className="primary" onClick={() => void make()}>
            Make it
          </button>
        </>
      }
    >
      <div className="start-body" ref={form}>
        <div className="start-fields" {...watch}>
          <p className="start-lead">
            Type what you have measured, as you measured it: <b>5 1/2</b>, <b>139.7 mm</b>,{' '}
            <b>3 7/16 in ±1/32</b>. {unitInWords(answers.unit)} What you leave empty starts from the value in
            italics, and is listed as assumed until you give it.
          </p>
          <About answers={answers} onChange={change} />
          {QUESTION_GROUPS.map(({ title, questions }) => (
            <fieldset key={title} className="bench-group">
              <legend>{title}</legend>
              {questions.map((question) => (
                <StartField
                  key={question.key}
                  question={question}
                  text={answers[question.key]}
                  usual={usualText(question, made.sizes, answers)}
                  unit={answers.unit}
                  problem={problemAt(question.key)}
                  onChange={(text) => change({ [question.key]: text })}
                  onFocus={() => setInHand(question.key)}
                  onBlur={() => {
                    setInHand(undefined);
                    setLeft((before) => new Set([...before, question.key]));
                  }}
                />
              ))}
            </fieldset>
          ))}
        </div>
        <div className="start-aside">
          <PartSketch
            sketch={sketch}
            lit={inHand}
            room={[26, 28]}
            text={
              inHand === undefined
                ? ''
                : answers[inHand] ||
                  usualText(
                    QUESTIONS.find(({ key }) => key === inHand),
                    made.sizes,
                    answers,
                  )
            }
          />
          <FieldHelp help={help} />
          <p className="soft">
            {measured} of {QUESTIONS.length} measured. At true scale; the rest of the corner follows from
            these and can be changed part by part once it stands on the bench.
          </p>
          {asked && others.length > 0 && (
            <div role="alert">
              {others.map(({ path, message }) => (
                <p key={`${path} ${message}`} className="bench-problem">
                  {path === '' ? message : `${path}: ${problemInWords(message, undefined)}`}
                </p>
              ))}
            </div>
          )}
        </div>
      </div>
    </Dialog>
  );
}
