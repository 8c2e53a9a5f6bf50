import type { PlannedJob, WeekPlan } from '@brimline/planning';
import { addBookingsSheet } from './bookings-sheet.ts';
import { addCostSheet, PRICE_NAMES } from './cost-sheet.ts';
import { addCurveNumbersSheet } from './curve-numbers-sheet.ts';
import { addCurveSheet } from './curve-sheet.ts';
import { addHoursSheet } from './hours-sheet.ts';
import { addOfferSheet } from './offer-sheet.ts';
import { bytesOf, newWorkbook } from './sheet-style.ts';
import { addWaysSheet } from './ways-sheet.ts';

/** The office's workbook of one job: offer, cost with live formulas, charge curve, ways, hours, bookings. */
export async function quoteWorkbook(job: PlannedJob, plan: WeekPlan): Promise<Uint8Array> {
  const book = await newWorkbook(`Quote for job ${job.id}`);
  addOfferSheet(book, job, plan, PRICE_NAMES);
  addCostSheet(book, job, plan);
  addCurveSheet(book, job, plan);
  addWaysSheet(book, job, plan);
  addHoursSheet(book, job, plan);
  addBookingsSheet(book, job, plan);
  addCurveNumbersSheet(book, job, plan);
  return bytesOf(book, plan.epoch);
}

/** The customer's copy: the offer alone. Cost and margin are nowhere in the file. */
export async function offerWorkbook(job: PlannedJob, plan: WeekPlan): Promise<Uint8Array> {
  const book = await newWorkbook(`Offer for job ${job.id}`);
  addOfferSheet(book, job, plan, null);
  return bytesOf(book, plan.epoch);
}
