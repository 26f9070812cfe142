// Bundles src/core as the page would get it and loads it, so that the tests run what ships.
import { build } from "esbuild";

const SOURCE = new URL("../src/core/index.ts", import.meta.url).pathname;

export async function loadCore() {
  const result = await build({
    entryPoints: [SOURCE],
    bundle: true,
    write: false,
    format: "esm",
    target: "es2021",
    charset: "utf8",
    logLevel: "warning",
  });
  const text = result.outputFiles[0].text;
  return import(`data:text/javascript;charset=utf-8,${encodeURIComponent(text)}`);
}
