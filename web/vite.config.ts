import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'

// Whoever builds, a test among them: what is served is what users get.
process.env.NODE_ENV = 'production'

export default defineConfig({
  root: import.meta.dirname,
  plugins: [react()],
  worker: { format: 'es' },
  build: { target: 'es2023', assetsInlineLimit: 0, emptyOutDir: true, chunkSizeWarningLimit: 1500 },
})
