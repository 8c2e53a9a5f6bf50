import type { ReactNode, RefObject } from 'react';

interface Props {
  readonly label: string;
  readonly box?: RefObject<HTMLDivElement | null>;
  readonly children: ReactNode;
}

/** A box that scrolls sideways, also by the arrow keys. */
export function ScrollBox({ label, box, children }: Props) {
  return (
    // A scrolled box must take the keyboard's focus, or what lies outside of view can't be reached without a mouse.
    // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex, jsx-a11y/prefer-tag-over-role
    <div ref={box} className="scroll-x" role="group" aria-label={label} tabIndex={0}>
      {children}
    </div>
  );
}
