import { useEffect, useRef } from 'preact/hooks';

/** Drawings fit a small screen; on paper they keep their scale. */
const k_fit = '@media screen { figure, svg, img { max-width: 100%; height: auto; } }';

/**
 * A page of HTML that the engine wrote, with its own styles, apart from those around it. Nothing in it runs.
 *
 * @param label names it for who cannot see it
 */
export function EnginePage({ html, label }: { html: string; label: string }) {
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const { current } = host;
    if (!current) return;
    const root = current.shadowRoot ?? current.attachShadow({ mode: 'open' });
    const page = new DOMParser().parseFromString(html, 'text/html');
    for (const script of page.querySelectorAll('script')) script.remove();
    const fit = document.createElement('style');
    fit.textContent = k_fit;
    root.replaceChildren(...page.head.querySelectorAll('style'), fit, page.body);
  }, [html]);
  return <div class="engine-page" ref={host} role="region" aria-label={label} tabIndex={0} />;
}
