import { useEffect, useRef } from 'react';

/** The help for the field that has the focus. Fields carry the same words for those who listen. */
export function FieldHelp({ help }: { help: string }) {
  const foot = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    // It may have come up over the field itself.
    const field = document.activeElement;
    if (help !== '' && field !== null && foot.current?.parentElement?.contains(field))
      field.scrollIntoView({ block: 'nearest' });
  }, [help]);
  if (help === '') return null;
  return (
    <p ref={foot} className="field-help" aria-hidden="true">
      {help}
    </p>
  );
}
