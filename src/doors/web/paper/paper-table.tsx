import type { ReactNode } from 'react';
import { Link } from 'wouter';
import type { PaperSheet } from '../../../exchange/paper/element.ts';
import { paperDocument } from '../../../exchange/paper/html.ts';
import { fileName } from '../../../exchange/share/make-file.ts';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { saveFile } from '../share/save-file.ts';
import type { Offered } from './offered.ts';
import { SheetPaper } from './sheet-paper.tsx';
import './paper.css';

/** The sheets that there are, and the one that is looked at, as it prints. */
export function PaperTable({
  title,
  under,
  offered,
  chosen,
  sheets,
  form,
}: {
  readonly title: string;
  readonly under: string;
  readonly offered: readonly Offered[];
  readonly chosen: string | null;
  /** Null while the forecast is being worked out. */
  readonly sheets: readonly PaperSheet[] | null;
  /** What the sheet asks before it prints. */
  readonly form?: ReactNode;
}): ReactNode {
  const { say, language } = useReader();
  const isOpen = chosen !== null;
  const save = (): void => {
    const [first] = sheets ?? [];
    if (sheets === null || first === undefined) return;
    saveFile({ name: `${fileName(first.head, first.id)}.html`, type: 'text/html', text: paperDocument({ sheets, language }) }); // prettier-ignore
  };
  return (
    <div className="paper-place" data-open={isOpen}>
      <header className="paper-place-head no-print">
        <h1>{title}</h1>
        <p>{under}</p>
      </header>
      <nav className="paper-choice no-print" aria-label={say('paper:sheets')}>
        <ul>
          {offered.map(({ id, href }) => (
            <li key={id}>
              <Link href={href} aria-current={id === chosen ? 'page' : undefined}>
                <strong>{say(`paper:sheet.${id}`)}</strong>
                <span>{say(`paper:about.${id}`)}</span>
              </Link>
            </li>
          ))}
        </ul>
      </nav>
      {!isOpen ? null : (
        <section className="paper-desk" aria-label={say('paper:preview')}>
          <div className="paper-acts no-print">
            <Button kind="main" disabled={sheets === null} onClick={() => window.print()}>
              {say('paper:print')}
            </Button>
            <Button disabled={sheets === null} onClick={save}>
              {say('paper:file')}
            </Button>
          </div>
          {form === undefined ? null : <div className="no-print">{form}</div>}
          {sheets === null ? <p role="status">{say('paper:working')}</p> : <SheetPaper sheets={sheets} />}
        </section>
      )}
    </div>
  );
}
