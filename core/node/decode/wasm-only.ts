import Module from 'node:module';

type Resolve = (request: string, ...rest: unknown[]) => string;

/**
 * EVENDIAL_DECODER=wasm: makes the native builds of the decoder impossible to find, so that the library takes its
 * WebAssembly build by itself. In Electron on Linux the native build clashes with the shell's own GLib.
 * Must be imported before the library; the variable is read because `process.versions.electron` is not there in all
 * kinds of threads.
 */
if (process.env['EVENDIAL_DECODER'] === 'wasm') {
  const loader = Module as unknown as { _resolveFilename: Resolve };
  const resolve = loader._resolveFilename;
  loader._resolveFilename = (request, ...rest) => {
    if (/^@img\/sharp-(?!wasm32)/.test(request)) {
      throw Object.assign(new Error(`${request} is not used`), { code: 'MODULE_NOT_FOUND' });
    }
    return resolve(request, ...rest);
  };
}
