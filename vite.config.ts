/// <reference types="vitest/config" />
import { svelte } from '@sveltejs/vite-plugin-svelte'
import { defineConfig } from 'vite'

export default defineConfig({
  root: 'src',
  base: './',
  publicDir: false,
  plugins: [svelte()],
  worker: { format: 'es' },
  build: { outDir: '../dist', emptyOutDir: true, target: 'es2022', chunkSizeWarningLimit: 1200 },
  test: { root: '.', include: ['tests/**/*.test.ts'], testTimeout: 120_000, hookTimeout: 300_000 },
})
