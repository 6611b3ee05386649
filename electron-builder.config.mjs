// `npm run package`: the program as a folder that runs where it is copied to. `npm run installers`: what a user of this
// system installs; building it fetches tools of the packager.

/** A runtime that is there already, for machines that cannot fetch one; its version has to be said. */
const { EVENDIAL_ELECTRON_DIST: electronDist, EVENDIAL_ELECTRON_VERSION: electronVersion } = process.env;
const major = Number((electronVersion ?? '45').split('.')[0]);

// On Linux the native decoder clashes with the runtime's GLib, and the WebAssembly build is used.
const nativeOfLinux = ['!node_modules/@img/sharp-linux*/**', '!node_modules/@img/sharp-libvips-linux*/**'];

export default {
  appId: 'app.evendial.bench',
  productName: 'Evendial',
  copyright: 'MIT licence',
  directories: { output: 'out/package' },
  files: [
    'package.json',
    'LICENSE',
    'dist/**',
    'samples/*.series.json',
    'samples/*.evendial',
    'samples/photos/**',
    '!dist/{render-samples,timings}.cjs',
    '!samples/photos/*.truth.json',
    '!**/*.map',
    '!node_modules/opencv-wasm/opencv-{bin,deno}.js',
    ...(process.platform === 'linux' ? nativeOfLinux : []),
  ],
  asar: true,
  // A native library cannot be loaded from inside the archive.
  asarUnpack: process.platform === 'linux' ? [] : ['node_modules/sharp/**', 'node_modules/@img/**'],
  npmRebuild: false,
  electronFuses: {
    runAsNode: false,
    enableCookieEncryption: true,
    enableNodeOptionsEnvironmentVariable: false,
    enableNodeCliInspectArguments: false,
    enableEmbeddedAsarIntegrityValidation: true,
    onlyLoadAppFromAsar: true,
    // Runtimes before 29 do not know it.
    ...(major >= 29 ? { grantFileProtocolExtraPrivileges: false } : {}),
  },
  icon: 'electron/icon/icon.png',
  fileAssociations: [
    {
      ext: 'evendial',
      name: 'Evendial unit',
      description: 'Unit of an Evendial book',
      mimeType: 'application/x-evendial',
    },
  ],
  linux: {
    target: ['AppImage', 'deb'],
    category: 'Graphics',
    synopsis: 'Measures photos of lit scale windows',
    maintainer: 'The Evendial developers <evendial@localhost>',
  },
  mac: { target: 'dmg', category: 'public.app-category.photography', identity: null },
  win: { target: 'nsis' },
  nsis: {
    oneClick: false,
    perMachine: false,
    allowToChangeInstallationDirectory: true,
    deleteAppDataOnUninstall: false,
  },
  ...(electronDist ? { electronDist } : {}),
  ...(electronVersion ? { electronVersion } : {}),
};
