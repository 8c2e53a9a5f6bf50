import {
  type ArgumentsHost,
  BadRequestException,
  Catch,
  type ExceptionFilter,
  HttpException,
  HttpStatus,
} from '@nestjs/common';
import { CalculationInputError, fieldAtFault, OutOfDomainError } from '@brimline/quantities';
import type { Request, Response } from 'express';
import type { Logger } from 'pino';

/** One field of a request that is not as it must be. */
export interface FieldProblem {
  readonly field: string;
  readonly message: string;
}

/** A request whose fields are not as their schema says: every one of them listed. */
export class FieldsException extends BadRequestException {
  constructor(readonly problems: readonly FieldProblem[]) {
    super('The request is not as it must be; see the list of fields.');
  }
}

interface Problem {
  readonly type: string;
  readonly title: string;
  readonly status: number;
  readonly detail: string;
  readonly instance: string;
  readonly errors?: readonly FieldProblem[];
}

/** Turns every failure into a problem document (RFC 9457); only the unforeseen ones are logged. */
@Catch()
export class ProblemFilter implements ExceptionFilter {
  constructor(private readonly log: Logger) {}

  catch(error: unknown, host: ArgumentsHost): void {
    const http = host.switchToHttp();
    const request = http.getRequest<Request>();
    const { status, detail, errors } = this.factsOf(error, request.body);
    const problem: Problem = {
      type: 'about:blank',
      title: HttpStatus[status]?.toLowerCase().replaceAll('_', ' ') ?? 'error',
      status,
      detail,
      instance: request.path,
      ...(errors ? { errors } : {}),
    };
    http
      .getResponse<Response>()
      .status(status)
      .type('application/problem+json')
      .send(JSON.stringify(problem));
  }

  private factsOf(
    error: unknown,
    body: unknown,
  ): { status: number; detail: string; errors?: readonly FieldProblem[] } {
    if (error instanceof FieldsException)
      return { status: 400, detail: error.message, errors: error.problems };
    if (error instanceof CalculationInputError) {
      return {
        status: 400,
        detail: error.message,
        errors: [{ field: error.field, message: `expected ${error.allowed}` }],
      };
    }
    if (error instanceof OutOfDomainError) {
      return {
        status: 400,
        detail: error.message,
        errors: [{ field: fieldAtFault(body, error), message: `allowed: ${error.allowed}` }],
      };
    }
    if (error instanceof HttpException) return { status: error.getStatus(), detail: error.message };
    if (isClientFault(error)) return { status: error.status, detail: error.message };
    this.log.error({ err: error }, 'unforeseen failure');
    return { status: 500, detail: 'Something failed here that should not; it is in the log.' };
  }
}

/** A body that is no JSON or too long comes as a plain error with a status of its own. */
function isClientFault(error: unknown): error is Error & { status: number } {
  return (
    error instanceof Error &&
    'status' in error &&
    typeof error.status === 'number' &&
    error.status >= 400 &&
    error.status < 500
  );
}
