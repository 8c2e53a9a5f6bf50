import { FirmRepository, PlanRepository, Store } from '@brimline/persistence';
import { type DynamicModule, Inject, Module, type OnApplicationShutdown } from '@nestjs/common';
import { CalculationsController } from './calculations/calculations.controller.ts';
import { FirmController } from './firm/firm.controller.ts';
import { HealthController } from './health/health.controller.ts';
import { OpenApiController } from './openapi.ts';
import { PlannerService } from './plans/planner.service.ts';
import { PlansController } from './plans/plans.controller.ts';

/** Wires the store to the controllers; closes the store when the server stops. */
@Module({})
export class AppModule implements OnApplicationShutdown {
  constructor(@Inject(Store) private readonly store: Store) {}

  static around(store: Store): DynamicModule {
    const firms = new FirmRepository(store);
    const plans = new PlanRepository(store);
    return {
      module: AppModule,
      controllers: [
        FirmController,
        PlansController,
        CalculationsController,
        HealthController,
        OpenApiController,
      ],
      providers: [
        { provide: Store, useValue: store },
        { provide: FirmRepository, useValue: firms },
        { provide: PlanRepository, useValue: plans },
        { provide: PlannerService, useFactory: () => new PlannerService(firms, plans) },
      ],
    };
  }

  async onApplicationShutdown(): Promise<void> {
    await this.store.close();
  }
}
