import { useEffect, useRef } from 'preact/hooks';

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
    root.replaceChildren(...page.head.querySelectorAll('style'), page.body);
  }, [html]);
  return <div class="engine-page" ref={host} role="region" aria-label={label} tabIndex={0} />;
}
