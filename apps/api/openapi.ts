import { ENGINE_VERSION } from '@brimline/planning';
import { Controller, Get } from '@nestjs/common';
import { z } from 'zod';
import { calculationInput } from './calculations/calculations.controller.ts';
import { planRequest } from './plans/plans.controller.ts';

const SHEET = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';
const problem = {
  description: 'What is wrong, by RFC 9457',
  content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } },
};
const json = (description: string) => ({
  description,
  content: { 'application/json': { schema: { type: 'object' } } },
});
const list = (description: string) => ({
  description,
  content: { 'application/json': { schema: { type: 'array', items: { type: 'object' } } } },
});
const sheet = {
  description: 'A workbook',
  content: { [SHEET]: { schema: { type: 'string', format: 'binary' } } },
};
const byName = (name: string, description: string) => [
  { name, in: 'path', required: true, description, schema: { type: 'string', minLength: 1 } },
];
const get = (operationId: string, summary: string, answer: object, parameters: object[] = []) => ({
  get: { operationId, summary, parameters, responses: { 200: answer, default: problem } },
});
const withBody = (
  operationId: string,
  summary: string,
  schema: string,
  status: number,
  answer: object,
  parameters: object[] = [],
) => ({
  post: {
    operationId,
    summary,
    parameters,
    requestBody: { content: { 'application/json': { schema: { $ref: `#/components/schemas/${schema}` } } } },
    responses: { [status]: answer, default: problem },
  },
});

const schemaOf = (schema: z.ZodType): object => {
  const {
    $schema: _schema,
    id: _id,
    ...body
  } = z.toJSONSchema(schema, { io: 'input', target: 'draft-2020-12' }) as Record<string, unknown>;
  return body;
};

/** What the server answers, as OpenAPI 3.1. */
export function openApiDocument(): object {
  return {
    openapi: '3.1.0',
    info: {
      title: 'Brimline',
      version: ENGINE_VERSION,
      description: 'Plans large refrigerant jobs. Quantities are SI and carry their unit in the name.',
    },
    paths: {
      '/api/firm': get('firm', 'The registers', json('The firm')),
      '/api/jobs': get('jobs', 'Every job', json('Jobs')),
      '/api/jobs/{id}': get('job', 'One job', json('A job'), byName('id', 'number of the job')),
      '/api/jobs/{id}/quote.xlsx': get(
        'quote',
        'The office workbook of a planned job',
        sheet,
        byName('id', 'number of the job'),
      ),
      '/api/jobs/{id}/offer.xlsx': get(
        'offer',
        "The customer's workbook of a planned job",
        sheet,
        byName('id', 'number of the job'),
      ),
      '/api/plan': {
        ...get('plan', 'The latest plan; 202 while the first is being made', json('The plan')),
        ...withBody('beginPlan', 'Make a new plan', 'PlanRequest', 202, json('The state of the planner')),
      },
      '/api/plan/state': get('planState', 'What the planner does now', json('The state')),
      '/api/plan/events': get('planEvents', 'The state as server-sent events', {
        description: 'A stream',
        content: { 'text/event-stream': { schema: { type: 'string' } } },
      }),
      '/api/plan/timeline.xlsx': get('timeline', 'The timeline workbook', sheet),
      '/api/calc': get(
        'calculations',
        'Every calculation with fields, formula and source',
        list('Calculations'),
      ),
      '/api/calc/{name}': withBody(
        'calculate',
        'Run a calculation',
        'CalculationInput',
        200,
        json('Its results'),
        byName('name', 'name of the calculation'),
      ),
      '/api/openapi.json': get('openApi', 'This document', json('OpenAPI 3.1')),
      '/health/live': get('live', 'Is the process alive?', json('It is')),
      '/health/ready': get('ready', 'Can it serve?', json('It can')),
    },
    components: {
      schemas: {
        PlanRequest: schemaOf(planRequest),
        CalculationInput: schemaOf(calculationInput),
        Problem: {
          type: 'object',
          required: ['type', 'title', 'status', 'detail'],
          properties: {
            type: { type: 'string' },
            title: { type: 'string' },
            status: { type: 'integer' },
            detail: { type: 'string' },
            instance: { type: 'string' },
            errors: {
              type: 'array',
              items: {
                type: 'object',
                properties: { field: { type: 'string' }, message: { type: 'string' } },
              },
            },
          },
        },
      },
    },
  };
}

@Controller('api/openapi.json')
export class OpenApiController {
  @Get()
  document(): object {
    return openApiDocument();
  }
}
