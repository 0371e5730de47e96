import { useMemo, useRef, useState } from 'react';
import type { Problem } from '../../../units/problem.ts';
import { Dialog } from '../../kit/Dialog.tsx';
import { FieldHelp } from '../../kit/FieldHelp.tsx';
import { useFieldHelp } from '../../kit/useFieldHelp.ts';
import { useCorner } from '../../state/cornerStore.ts';
import { useDocument } from '../../state/documentStore.ts';
import { problemInWords, unitInWords } from '../../state/fieldText.ts';
import { confirmDiscard } from '../../state/keep/unsavedChanges.ts';
import { useSession } from '../../state/session.ts';
import { useView } from '../../state/viewStore.ts';
import { PartSketch } from '../parts/sketch/PartSketch.tsx';
import { About } from './About.tsx';
import { type Answers, noAnswers, type SomeAnswers } from './answers.ts';
import { fileNameOf, newCorner, placeProblems } from './newCorner.ts';
import { QUESTION_GROUPS, QUESTIONS, type QuestionKey } from './questions.ts';
import { StartField } from './StartField.tsx';
import { startSketch } from './startSketch.ts';
import { useStart } from './startStore.ts';
import { usualText } from './usualText.ts';

/** Problems that the engine reports for a set of answers. */
interface Rejected {
  answers: Answers;
  problems: readonly Problem[];
}

/** Sheet for a new corner from a few main dimensions. The typed text is kept when the sheet closes. */
export function StartSheet() {
  const session = useSession();
  const shownUnit = useView((view) => view.unit);
  const answers = useStart((state) => state.answers) ?? noAnswers(shownUnit);
  const [left, setLeft] = useState<ReadonlySet<QuestionKey>>(
    () => new Set(QUESTIONS.flatMap(({ key }) => (answers[key] === '' ? [] : [key]))),
  );
  const [inHand, setInHand] = useState<QuestionKey>();
  const [rejected, setRejected] = useState<Rejected>();
  const [isSubmitted, setSubmitted] = useState(false);
  const form = useRef<HTMLDivElement>(null);
  const made = useMemo(() => newCorner(answers), [answers]);
  const sketch = useMemo(() => startSketch(made.sizes, made.points), [made]);
  const found = placeProblems(rejected?.answers === answers ? rejected.problems : []);
  const wrong = { ...found.placed, ...made.wrong };
  const others = [...made.others, ...found.others];
  const measured = QUESTIONS.filter(({ key }) => answers[key].trim() !== '').length;

  const change = (changed: SomeAnswers) => useStart.setState({ answers: { ...answers, ...changed } });
  const close = () => useStart.setState({ open: false });
  /** No problem is shown while a text is typed for the first time. */
  const problemAt = (key: QuestionKey) =>
    isSubmitted || left.has(key) || answers[key] === '' ? wrong[key] : undefined;

  const make = async () => {
    setSubmitted(true);
    const first = QUESTIONS.find(({ key }) => wrong[key] !== undefined);
    if (first !== undefined) form.current?.querySelector<HTMLInputElement>(`[name=${first.key}]`)?.focus();
    if (first !== undefined || others.length > 0 || !confirmDiscard()) return;
    const { source } = made;
    const fileName = fileNameOf(String(source.name));
    const before = useCorner.getState().opened;
    await session.open(fileName, JSON.stringify(source), {
      unsaved: true,
      label: `Created ${source.name}`,
      onProblems: (problems) => setRejected({ answers, problems }),
    });
    // False if the corner was rejected, or superseded by a file dropped meanwhile.
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
              if (window.confirm('Clear every field of the new corner?'))
                useStart.setState({ answers: undefined });
            }}
          >
            Clear all
          </button>
          <button type="button" className="primary" onClick={() => void make()}>
            Create corner
          </button>
        </>
      }
    >
      <div className="start-body" ref={form}>
        <div className="start-fields" {...watch}>
          <p className="start-lead">
            Type your measurements as you took them: <b>5 1/2</b>, <b>139.7 mm</b>, <b>3 7/16 in ±1/32</b>.{' '}
            {unitInWords(answers.unit)} An empty field uses the value in italics, which is listed as assumed
            until you give one.
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
            {measured} of {QUESTIONS.length} measured. The sketch is to scale. The rest of the corner follows
            from these values; you can change it part by part later.
          </p>
          {isSubmitted && others.length > 0 && (
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
