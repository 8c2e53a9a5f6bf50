import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

const root = fileURLToPath(new URL('.', import.meta.url));
const server = process.env['BRIMLINE_SERVER'] ?? 'http://127.0.0.1:4780';

export default defineConfig({
  root,
  base: './',
  plugins: [react()],
  resolve: { tsconfigPaths: true },
  server: { proxy: { '/api': server } },
  build: {
    outDir: fileURLToPath(new URL('../../dist/web', import.meta.url)),
    emptyOutDir: true,
    chunkSizeWarningLimit: 900,
  },
});
