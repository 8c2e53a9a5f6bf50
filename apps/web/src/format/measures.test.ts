import { describe, expect, it } from 'vitest';
import { dayTimeText, spanOfDaysText, zoneName, zonePlace } from './clock.ts';
import { gaugeText, massText, quantityText, significant, spanText } from './measures.ts';

describe('measures for people', () => {
  // 240 lb = 108.862 kg and 100 psi = 689,476 Pa by the definitions of pound and inch (NIST SP 811, from memory).
  it('follow the system chosen', () => {
    expect([massText(108.862, 'us'), massText(108.862, 'si'), massText(1.2, 'si')]).toEqual([
      '240 lb',
      '109 kg',
      '1.2 kg',
    ]);
    expect(gaugeText(101_325 + 689_476, 'us')).toBe('100 psig');
    expect(quantityText(294.261, 'K', 'us')).toBe('70 °F');
    expect(quantityText(39.9967, 'Pa', 'us')).toBe('300 µm');
    expect(quantityText(0.0127, 'm', 'us')).toBe('0.5 in');
    expect(quantityText(0.5, '-', 'us')).toBe('0.5');
    expect(quantityText('by the plate', '-', 'si')).toBe('by the plate');
  });

  it('write short spans in minutes and keep significant figures', () => {
    expect([spanText(1500), spanText(3600), spanText(3570)]).toEqual(['25 min', '1.0 h', '1.0 h']);
    expect([0, 1234.5, 0.012345, 1200].map((value) => significant(value))).toEqual([
      '0',
      '1,235',
      '0.0123',
      '1,200',
    ]);
    expect(significant(1.5e-6)).toBe('1.50 × 10^-6');
  });
});

describe('clocks for people', () => {
  const at_ms = Date.parse('2026-11-01T06:30:00Z');

  it('tell the two hours of the same name apart by the zone', () => {
    expect(
      [at_ms, at_ms + 3_600_000].map(
        (at) => `${dayTimeText(at, 'America/Chicago')} ${zoneName(at, 'America/Chicago')}`,
      ),
    ).toEqual(['Sun 1 Nov 01:30 CDT', 'Sun 1 Nov 01:30 CST']);
  });

  it('write the second day only where it is another', () => {
    expect(spanOfDaysText(at_ms, at_ms + 3 * 3_600_000, 'UTC')).toBe('Sun 1 Nov 06:30 to 09:30');
    expect(spanOfDaysText(at_ms, at_ms + 24 * 3_600_000, 'UTC')).toBe('Sun 1 Nov 06:30 to Mon 2 Nov 06:30');
    expect(zonePlace('America/Port_of_Spain')).toBe('Port of Spain');
  });
});
