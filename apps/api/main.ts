import 'reflect-metadata';
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { FirmRepository, Store } from '@brimline/persistence';
import { StandardSchemaValidationPipe } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import type { NestExpressApplication } from '@nestjs/platform-express';
import type { NextFunction, Request, Response } from 'express';
import helmet from 'helmet';
import { type Logger, pino } from 'pino';
import { pinoHttp } from 'pino-http';
import { AppModule } from './app.module.ts';
import { loadSamples } from './load-samples.ts';
import { PlannerService } from './plans/planner.service.ts';
import { FieldsException, ProblemFilter } from './problem-filter.ts';
import { readSettings, type Settings } from './settings.ts';

const PAGES = fileURLToPath(new URL('../web', import.meta.url));
const LARGEST_BODY = '1mb';

async function serve(settings: Settings): Promise<void> {
  const log = pino({ level: settings.LOG, redact: ['req.headers.cookie', 'req.headers.authorization'] });
  await mkdir(settings.BRIMLINE_DATA, { recursive: true });
  const store = await Store.open(join(settings.BRIMLINE_DATA, 'brimline.sqlite'));
  const isFirstRun =
    settings.DEMO === '1' && (await loadSamples(new FirmRepository(store), settings.BRIMLINE_SAMPLES));
  const app = await NestFactory.create<NestExpressApplication>(AppModule.around(store), {
    logger: ['error'],
    forceCloseConnections: true,
    bodyParser: false,
  });
  harden(app, log);
  app.useBodyParser('json', { limit: LARGEST_BODY });
  app.useGlobalFilters(new ProblemFilter(log));
  app.useGlobalPipes(
    new StandardSchemaValidationPipe({
      exceptionFactory: (issues) =>
        new FieldsException(
          issues.map(({ path, message }) => ({
            field: (path ?? []).map(keyOf).join('.') || '(body)',
            message,
          })),
        ),
    }),
  );
  servePages(app);
  app.enableShutdownHooks();
  await app.listen(settings.PORT, settings.HOST);
  if (isFirstRun || (await app.get(PlannerService).latest()) === null) await app.get(PlannerService).begin(1);
  process.stdout.write(`Brimline is ready at ${(await app.getUrl()).replace('[::1]', '127.0.0.1')}\n`);
}

function keyOf(segment: PropertyKey | { readonly key: PropertyKey }): string {
  return String(typeof segment === 'object' ? segment.key : segment);
}

/** Headers that hold on plain http too, and a log line a request. */
function harden(app: NestExpressApplication, log: Logger): void {
  app.use(
    helmet({
      strictTransportSecurity: false,
      contentSecurityPolicy: { directives: { upgradeInsecureRequests: null } },
    }),
  );
  app.use(refuseForeignWrites);
  app.use(pinoHttp({ logger: log, autoLogging: log.isLevelEnabled('info') }));
}

/** A page of another site must not write here through somebody's browser. */
function refuseForeignWrites(request: Request, response: Response, next: NextFunction): void {
  const { origin, host } = request.headers;
  const isRead = request.method === 'GET' || request.method === 'HEAD';
  if (isRead || origin === undefined || origin === `http://${host}` || origin === `https://${host}`)
    return next();
  response
    .status(403)
    .type('application/problem+json')
    .send(
      JSON.stringify({
        type: 'about:blank',
        title: 'forbidden',
        status: 403,
        detail: `Requests from ${origin} may not change anything here.`,
      }),
    );
}

function servePages(app: NestExpressApplication): void {
  app.useStaticAssets(PAGES, {
    setHeaders: (response, path) => {
      const isHashed = /[/\\]assets[/\\]/.test(path);
      response.setHeader('cache-control', isHashed ? 'public, max-age=31536000, immutable' : 'no-cache');
    },
  });
}

const settings = readSettings(process.env);
if (Array.isArray(settings)) {
  process.stderr.write(`${settings.join('\n')}\n`);
  process.exitCode = 2;
} else {
  await serve(settings as Settings);
}
