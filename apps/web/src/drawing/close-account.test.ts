import { describe, expect, it } from 'vitest';
import { closeAccount } from './close-account.ts';

const ACCOUNT = {
  nameplate_kg: 100,
  before_kg: 100,
  recovered_kg: 99,
  leftAsVapour_kg: 1,
  heelInCylinders_kg: 2,
  fromStock_kg: 3,
  after_kg: 100,
};

// Worked by hand: 100 before + 3 from stock = 100 after + 1 lost + 2 heel.
describe('the account of refrigerant', () => {
  it('closes when every kilogram has a place', () => {
    const { sum_kg, missing_kg } = closeAccount(ACCOUNT);
    expect([sum_kg, missing_kg]).toEqual([103, 0]);
  });

  it('says what is missing when one has none', () => {
    expect(closeAccount({ ...ACCOUNT, heelInCylinders_kg: 1.5 }).missing_kg).toBeCloseTo(0.5, 10);
  });

  it('keeps in cylinders what is not charged back', () => {
    const only = { ...ACCOUNT, fromStock_kg: 0, after_kg: 0, heelInCylinders_kg: 0 };
    expect(closeAccount(only)).toMatchObject({ missing_kg: 0, to: [{}, {}, { what: 'kept', mass_kg: 99 }] });
  });
});
