import type { PlannedJob, WeekPlan } from '@brimline/planning';
import type { Workbook } from 'exceljs';
import { addCostSheet } from './cost-sheet.ts';
import { addCurveSheet } from './curve-sheet.ts';
import { addBookingsSheet, addHoursSheet, addWaysSheet } from './hours-sheets.ts';
import { addOfferSheet } from './offer-sheet.ts';
import { newWorkbook } from './sheet-style.ts';

async function bytesOf(book: Workbook, plan: WeekPlan): Promise<Uint8Array> {
  // The plan's epoch, not the clock: the same plan gives the same workbook.
  book.created = new Date(plan.epoch);
  book.modified = new Date(plan.epoch);
  return new Uint8Array(await book.xlsx.writeBuffer());
}

/** The office's workbook of one job: offer, cost with live formulas, hours, ways, bookings, charge curve. */
export async function quoteWorkbook(job: PlannedJob, plan: WeekPlan): Promise<Uint8Array> {
  const book = await newWorkbook(`Quote for job ${job.id}`);
  addOfferSheet(book, job, plan);
  addCostSheet(book, job, plan);
  addHoursSheet(book, job, plan);
  addWaysSheet(book, job, plan);
  addBookingsSheet(book, job, plan);
  addCurveSheet(book, job, plan);
  return bytesOf(book, plan);
}

/** The customer's copy: the offer alone. Cost and margin are nowhere in the file. */
export async function offerWorkbook(job: PlannedJob, plan: WeekPlan): Promise<Uint8Array> {
  const book = await newWorkbook(`Offer for job ${job.id}`);
  addOfferSheet(book, job, plan);
  return bytesOf(book, plan);
}
