import type { RuleFacts } from '../rule-facts.ts';

/** Ventilation of a room that holds large refrigerating machines; G is the largest system's charge. */
export const MACHINERY_ROOM_VENTILATION: RuleFacts & {
  readonly emergency_cfm_per_root_lb: number;
  readonly naturalOpening_ft2_per_root_lb: number;
  readonly normal_cfm_ft2: number;
  readonly normal_cfm_person: number;
} = {
  citation: 'International Mechanical Code 1105.6, after ASHRAE 15',
  trueOn: '2024-12-31',
  basis: 'read',
  notes: [
    'Rooms with A2L refrigerants: later editions use other tables.',
    'Normal exhaust also has to keep the room within 18 degF of the air that enters.',
    'A detector starts the fans and alarms inside and at each door.',
  ],
  emergency_cfm_per_root_lb: 100,
  naturalOpening_ft2_per_root_lb: 1,
  normal_cfm_ft2: 0.5,
  normal_cfm_person: 20,
};

/** Concentration limits in occupied rooms, pounds in 1000 cubic feet. */
export const CONCENTRATION_LIMITS: RuleFacts & {
  readonly limit_lb_1000ft3: Readonly<Record<string, number>>;
  readonly fromMemory_lb_1000ft3: Readonly<Record<string, number>>;
} = {
  citation: 'International Mechanical Code Table 1103.1, after ASHRAE 34 (RCL)',
  trueOn: '2024-12-31',
  basis: 'read in part',
  notes: ['The whole charge spread evenly through the room; a low room fills from the floor up.'],
  limit_lb_1000ft3: {
    'R-11': 0.39,
    'R-12': 5.6,
    'R-22': 13,
    'R-32': 4.8,
    'R-113': 1.2,
    'R-114': 8.7,
    'R-123': 3.5,
    'R-124': 3.5,
    'R-125': 23,
    'R-134a': 13,
  },
  fromMemory_lb_1000ft3: {
    'R-410A': 26,
    'R-513A': 20,
    'R-1233zd(E)': 5.3,
    'R-1234ze(E)': 4.7,
    'R-1234yf': 4.7,
    'R-245fa': 12,
    'R-514A': 0.86,
  },
};
