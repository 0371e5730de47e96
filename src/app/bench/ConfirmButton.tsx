interface ConfirmButtonProps {
  spoken: string;
  assumed: string;
  onConfirm(): void;
}

/** Says that a value is assumed; pressing it makes the value one that was given. */
export function ConfirmButton({ spoken, assumed, onConfirm }: ConfirmButtonProps) {
  return (
    <button
      type="button"
      className="bench-confirm"
      aria-label={`Confirm ${spoken}, assumed ${assumed}`}
      title={`Nobody has given this value: ${assumed} is assumed. Press where that is what you have.`}
      onClick={onConfirm}
    >
      assumed
    </button>
  );
}
