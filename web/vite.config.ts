import { readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { brotliCompressSync, gzipSync } from "node:zlib";
import { defineConfig, type Plugin } from "vite";

const OUT = "../src/seamwright/app/pages";

/** Write a .gz and a .br beside every text file, so that the server need not press anything. */
function pressed(): Plugin {
  const press = (folder: string): void => {
    for (const name of readdirSync(folder)) {
      const path = join(folder, name);
      if (statSync(path).isDirectory()) press(path);
      else if (/\.(js|css|html|svg|json)$/.test(name)) {
        const body = readFileSync(path);
        writeFileSync(`${path}.gz`, gzipSync(body, { level: 9 }));
        writeFileSync(`${path}.br`, brotliCompressSync(body));
      }
    }
  };
  let out = OUT;
  return {
    name: "pressed",
    apply: "build",
    configResolved: (config) => {
      out = config.build.outDir;
    },
    closeBundle: () => press(out),
  };
}

export default defineConfig({
  base: "/",
  esbuild: { jsx: "automatic", jsxImportSource: "preact" },
  build: {
    outDir: OUT,
    emptyOutDir: true,
    target: "es2022",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 700,
  },
  server: { port: 5173, proxy: { "/api": "http://127.0.0.1:8710" } },
  worker: { format: "es" },
  plugins: [pressed()],
  test: { include: ["tests/**/*.test.{ts,tsx}"] },
} as Parameters<typeof defineConfig>[0]);
