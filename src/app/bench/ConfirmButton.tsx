interface ConfirmButtonProps {
  spoken: string;
  assumed: string;
  /** A value to start from, which stands in the file, and not a default. */
  guess?: boolean;
  onConfirm(): void;
}

/** Says that a value is assumed; pressing it makes the value one that was given. */
export function ConfirmButton({ spoken, assumed, guess = false, onConfirm }: ConfirmButtonProps) {
  const word = guess ? 'guess' : 'assumed';
  return (
    <button
      type="button"
      className="bench-confirm"
      aria-label={`Confirm ${spoken}, ${word} ${assumed}`}
      title={`Nobody has given this value: ${assumed} is ${guess ? 'a guess to start from' : 'assumed'}. Press where that is what you have.`}
      onClick={onConfirm}
    >
      {word}
    </button>
  );
}
