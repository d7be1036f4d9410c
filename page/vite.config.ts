// The bundle goes into the package, so that nobody needs Node to open the desk.     (vite.config.ts)
import { createHash } from "node:crypto";
import { readFileSync, readdirSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";
import type { Plugin } from "vite";

const HERE = fileURLToPath(new URL(".", import.meta.url));
const ALSO = ["index.html", "package-lock.json", "tsconfig.json", "vite.config.ts"];

/** Every source of the bundle, tests apart, in order. */
function sources(): string[] {
  const found = readdirSync(join(HERE, "src"), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !/\.test\.tsx?$/.test(entry.name))
    .map((entry) => relative(HERE, join(entry.parentPath, entry.name)).split(sep).join("/"));
  return [...ALSO, ...found].sort();
}

/** Puts into the bundle what it was made from, so that a test without Node sees when it is old. */
function stamp(): Plugin {
  return {
    name: "stamp",
    generateBundle() {
      const lines = sources().map((name) => {
        const digest = createHash("sha256").update(readFileSync(join(HERE, name))).digest("hex");
        return `${digest}  ${name}\n`;
      });
      this.emitFile({ type: "asset", fileName: "made-from.txt", source: lines.join("") });
    },
  };
}

export default defineConfig({
  base: "/",
  plugins: [stamp()],
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
  test: { environment: "jsdom", setupFiles: ["vitest.setup.ts"], include: ["src/**/*.test.ts", "src/**/*.test.tsx"] },
});
