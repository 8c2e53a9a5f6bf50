/** Changes whenever an engine's figures may change; kept with every estimate and plan. */
export const ENGINE_VERSION = '0.1.0';
