import { z } from 'zod';

/** Addresses that only this machine reaches. */
const LOOPBACK = new Set(['127.0.0.1', 'localhost', '::1']);

const environment = z.object({
  PORT: z.coerce.number().int().min(0).max(65_535).default(4780),
  HOST: z
    .string()
    .default('127.0.0.1')
    .refine(
      (host) => LOOPBACK.has(host),
      'only 127.0.0.1, localhost or ::1: there are no accounts yet, so no other machine may reach the server',
    ),
  BRIMLINE_DATA: z.string().min(1).default('data'),
  BRIMLINE_SAMPLES: z.string().min(1).default('sample-jobs'),
  DEMO: z.enum(['0', '1'], 'only 0 or 1').default('1'),
  LOG: z
    .enum(['silent', 'error', 'warn', 'info', 'debug'], 'only silent, error, warn, info or debug')
    .default('warn'),
});

export type Settings = z.output<typeof environment>;

/** Reads the environment, or says in one line a variable what is wrong. */
export function readSettings(
  env: Readonly<Record<string, string | undefined>>,
): Settings | readonly string[] {
  const result = environment.safeParse(env);
  if (result.success) return result.data;
  return result.error.issues.map(
    ({ path, message }) => `${path.join('.')}: ${env[String(path[0])]} is not allowed; expected ${message}`,
  );
}
