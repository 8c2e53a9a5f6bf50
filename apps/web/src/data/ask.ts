import { words } from '../words.ts';

export type Answer<Value> =
  | { readonly ok: true; readonly status: number; readonly value: Value }
  | { readonly ok: false; readonly status: number | null; readonly message: string };

/** Asks the server for JSON. A refusal or a missing connection is an answer in words, never an exception. */
export async function askJson<Value>(what: string, path: string, request?: RequestInit): Promise<Answer<Value>> {
  let response: Response;
  try {
    response = await fetch(path, { ...request, headers: { accept: 'application/json', ...request?.headers } });
  } catch {
    return { ok: false, status: null, message: words.state.unreachable(what) };
  }
  const { status } = response;
  const body = await readJson(response);
  if (!response.ok) {
    return { ok: false, status, message: problemText(body) ?? words.state.refusedBy(what, status) };
  }
  if (body === undefined) return { ok: false, status, message: words.state.unreadable(what) };
  return { ok: true, status, value: body as Value };
}

async function readJson(response: Response): Promise<unknown> {
  const text = await response.text().catch(() => '');
  if (text === '') return null;
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}

/** What a problem document (RFC 9457) says is wrong: its detail, and each field that it lists. */
export function problemText(body: unknown): string | null {
  if (typeof body === 'string' && body !== '') return body;
  if (Array.isArray(body)) {
    const texts = body.map(problemText).filter((text) => text !== null);
    return texts.length > 0 ? texts.join(' ') : null;
  }
  if (typeof body !== 'object' || body === null) return null;
  const { field, message, detail, title, errors } = body as Readonly<Record<string, unknown>>;
  const main = problemText(message) ?? problemText(detail) ?? problemText(title);
  const named = typeof field === 'string' && main !== null ? `${field}: ${main}.` : main;
  const list = problemText(errors);
  return named !== null && list !== null ? `${named} ${list}` : (named ?? list);
}
