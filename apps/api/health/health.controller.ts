import { Store } from '@brimline/persistence';
import { Controller, Get, Inject, ServiceUnavailableException } from '@nestjs/common';

/** Is the process alive, and can it serve? */
@Controller('health')
export class HealthController {
  constructor(@Inject(Store) private readonly store: Store) {}

  @Get('live')
  live(): { readonly status: 'alive' } {
    return { status: 'alive' };
  }

  @Get('ready')
  async ready(): Promise<{ readonly status: 'ready' }> {
    if (!(await this.store.isReady().catch(() => false)))
      throw new ServiceUnavailableException('The database does not answer.');
    return { status: 'ready' };
  }
}
