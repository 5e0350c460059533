import type { ButtonHTMLAttributes, ReactNode } from 'react';
import './button.css';

/** `main` is the one filled action of a screen; `second` is outlined in the rim's blue; `plain` is for lesser ones; `quiet` reads as text. */
export type ButtonKind = 'main' | 'second' | 'plain' | 'quiet' | 'act';

export function Button({
  kind = 'plain',
  size = 'desk',
  icon,
  children,
  className = '',
  ...rest
}: {
  readonly kind?: ButtonKind;
  /** `vat` is made for wet hands at arm's length. */
  readonly size?: 'desk' | 'vat';
  readonly icon?: ReactNode;
  readonly children: ReactNode;
} & ButtonHTMLAttributes<HTMLButtonElement>): ReactNode {
  return (
    <button type="button" className={`button button-${kind} button-${size} ${className}`} {...rest}>
      {icon}
      <span>{children}</span>
    </button>
  );
}
