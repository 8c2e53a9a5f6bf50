export { offerWorkbook, quoteWorkbook } from './quote-workbook.ts';
export { timelineWorkbook } from './timeline-workbook.ts';
