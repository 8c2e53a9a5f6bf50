import type { Quote, QuoteLine } from '@brimline/costing';
import { decimalsOf, formatMoney, formatNumber, type Money } from '@brimline/quantities';
import { significant, percentText } from '../format/measures.ts';
import { words } from '../words.ts';
import { ScrollBox } from '../components/scroll-box.tsx';

/** The priced lines, and how they become the price. */
export function JobPrice({ quote }: { readonly quote: Quote }) {
  const { lineHead: head } = words.job;
  const groups = [...new Set(quote.lines.map(({ group }) => group))];
  return (
    <section aria-labelledby="price-title">
      <h2 id="price-title">{words.job.priceLines}</h2>
      <ScrollBox label={words.job.priceLines}>
        <table>
          <thead>
            <tr>
              <th scope="col">{head.line}</th>
              {[head.quantity, head.each, head.cost].map((text) => (
                <th key={text} scope="col" className="number">
                  {text}
                </th>
              ))}
            </tr>
          </thead>
          {groups.map((group) => (
            <tbody key={group}>
              <tr className="group">
                <th scope="rowgroup" colSpan={4}>
                  {words.job.group[group]}
                </th>
              </tr>
              {quote.lines
                .filter((line) => line.group === group)
                .map((line) => (
                  <Line key={`${line.text} ${line.quantity} ${line.unitCost_minor}`} line={line} />
                ))}
            </tbody>
          ))}
          <Totals quote={quote} />
        </table>
      </ScrollBox>
    </section>
  );
}

function Line({ line }: { readonly line: QuoteLine }) {
  const { currency } = line.cost;
  return (
    <tr>
      <th scope="row">{line.text}</th>
      <td className="number">
        {significant(line.quantity, 4)} {line.unit}
      </td>
      <td className="number">{formatNumber(line.unitCost_minor / 10 ** decimalsOf(currency), 2)}</td>
      <td className="number">{formatMoney(line.cost)}</td>
    </tr>
  );
}

function Totals({ quote }: { readonly quote: Quote }) {
  return (
    <tbody>
      <Total label={words.job.direct} money={quote.directCost} isSum />
      <Total label={words.job.overhead(percentText(quote.overheadShare, 1))} money={quote.overhead} />
      <Total label={words.job.contingency} money={quote.contingency} />
      <Total label={words.job.cost} money={quote.cost} isSum />
      <Total label={words.job.margin(percentText(quote.marginShare, 1))} money={quote.margin} />
      <Total label={words.job.price} money={quote.priceBeforeTax} isSum />
      <Total label={words.job.tax(percentText(quote.taxShare, 2))} money={quote.tax} />
      <Total label={words.job.total} money={quote.price} isSum />
    </tbody>
  );
}

interface TotalProps {
  readonly label: string;
  readonly money: Money;
  readonly isSum?: boolean;
}

function Total({ label, money, isSum = false }: TotalProps) {
  return (
    <tr className={isSum ? 'sum' : undefined}>
      <th scope="row" colSpan={3}>
        {label}
      </th>
      <td className="number">{formatMoney(money)}</td>
    </tr>
  );
}
