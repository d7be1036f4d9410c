// The bundle goes into the package, so that nobody needs Node to open the desk.     (vite.config.ts)
import { defineConfig } from "vitest/config";

export default defineConfig({
  base: "/",
  build: {
    outDir: "../src/takeup/desk/static",
    emptyOutDir: true,
    assetsInlineLimit: 0, // the content policy takes no data: addresses
    chunkSizeWarningLimit: 1500,
    rollupOptions: {
      output: {
        entryFileNames: "assets/[name].js", // no hashes: a rebuild of the same sources changes nothing
        chunkFileNames: "assets/[name].js",
        assetFileNames: "assets/[name][extname]",
      },
    },
  },
  test: { environment: "happy-dom", include: ["src/**/*.test.ts", "src/**/*.test.tsx"] },
});
