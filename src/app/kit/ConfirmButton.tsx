interface ConfirmButtonProps {
  spoken: string;
  assumed: string;
  /** The value is a starting value in the file, not a default. */
  guess?: boolean;
  onConfirm(): void;
}

/** Marks a value as assumed; pressing the button confirms the value. */
export function ConfirmButton({ spoken, assumed, guess = false, onConfirm }: ConfirmButtonProps) {
  const word = guess ? 'guess' : 'assumed';
  return (
    <button
      type="button"
      className="bench-confirm"
      aria-label={`Confirm ${spoken}, ${word} ${assumed}`}
      title={`${assumed} is ${guess ? 'a starting value' : 'assumed'}, not given. Press to confirm it if your part has this value.`}
      onClick={onConfirm}
    >
      {word}
    </button>
  );
}
