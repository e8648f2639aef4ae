/** Shapes that say a state without colour. Decorative: the words stand beside them. */
import { svg, type TemplateResult } from 'lit';
import { html } from 'lit';

const SHAPES = {
  /** Hourglass, upper half full. */
  early: svg`<path d="M6 3h12M6 21h12M7 3v3c0 3 5 4 5 6s-5 3-5 6v3M17 3v3c0 3-5 4-5 6s5 3 5 6v3" fill="none"/><path d="M8.5 6h7c-.5 2-3.5 3-3.5 5 0-2-3-3-3.5-5z" stroke="none"/>`,
  /** Tick in a ring. */
  right: svg`<circle cx="12" cy="12" r="9.5" fill="none"/><path d="m7 12.5 3.5 3.500L17 9" fill="none"/>`,
  /** Triangle with a stroke. */
  long: svg`<path d="M12 3 22 20.500H2z" fill="none"/><path d="M12 9.500v5M12 17.200v.6" fill="none"/>`,
  held: svg`<path d="M6 4h4v16H6zM14 4h4v16h-4z" stroke="none"/>`,
  stop: svg`<path d="M8 2h8l6 6v8l-6 6H8l-6-6V8z" fill="none"/><path d="M7 12h10" fill="none"/>`,
  no: svg`<circle cx="12" cy="12" r="9.5" fill="none"/><path d="m5.5 5.5 13 13" fill="none"/>`,
  ask: svg`<path d="M7.5 8.500a4.5 4.5 0 1 1 6.5 4c-1.5.8-2 1.6-2 3.500M12 19v.8" fill="none"/>`,
  asleep: svg`<path d="M20 14.500A8.5 8.5 0 1 1 9.5 4 7 7 0 0 0 20 14.500z" fill="none"/>`,
  awake: svg`<path d="M9 3h6v10H9zM5 11c0 9 14 9 14 0M12 18v3" fill="none"/>`,
  hearing: svg`<path d="M3 10v4M7.5 6v12M12 3v18M16.5 6v12M21 10v4" fill="none"/>`,
  speaking: svg`<path d="M3 9v6h4l6 5V4L7 9zM16.5 8.500c2 2 2 5 0 7M19.5 5.500c4 4 4 9 0 13" fill="none"/>`,
  off: svg`<path d="M9 3h6v10H9zM5 11c0 9 14 9 14 0M12 18v3M3 3l18 18" fill="none"/>`,
} as const;

export type Shape = keyof typeof SHAPES;

/** A shape as high as the text it stands in. */
export function icon(shape: Shape): TemplateResult {
  return html`<svg class="icon" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
    ${SHAPES[shape]}
  </svg>`;
}
