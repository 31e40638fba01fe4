// The handbook's own Python in the browser, brought here when somebody needs it.
// Only `start` knows which Python that is: another one has to offer the same call.
const handbookPython = (() => {
  const root = new URL("..", document.currentScript.src);
  const at = (address) => new URL(address, root).href;
  const HEAP_BYTES = 4 * 1024 * 1024; // so much that nothing is collected while the modules are read
  const NOT_WHOLE = "its parts are not on this device, and the network does not give them whole; sign in to the site where it asks for it, or try again with a better network";
  let started;
  const brought = {};

  // The runtime at the addresses {runtime, wasm}.
  async function start({ runtime, wasm }) {
    if (location.protocol === "file:") {
      throw new Error("this page was opened as a file, and browsers let such a page load no parts");
    }
    if (typeof WebAssembly !== "object") throw new Error("this browser has no WebAssembly");
    const python = await load(runtime, wasm);
    python.runPython("import sys\nsys.path.append('/')");
    return python;
  }

  // The modules of a form put into the runtime: a function call(module, name, ...texts) that gives a text.
  async function bring(coming, code) {
    const [python, files] = await Promise.all([coming, fetchFiles(at(code))]);
    for (const [address, text] of Object.entries(files)) write(python.FS, `/${address}`, text);
    return (module, name, ...texts) => {
      python.runPython(`import ${module}`);
      return python.globals.get("sys").modules[module][name](...texts);
    };
  }

  // The modules, whole; something else that was kept in their place on the way is passed by the second time.
  async function fetchFiles(address) {
    for (const cache of ["default", "reload"]) {
      const response = await fetch(address, { cache }).catch(() => null);
      const files = response?.ok ? await response.json().catch(() => null) : null;
      if (files) return files;
    }
    throw new Error(NOT_WHOLE);
  }

  // The runtime likewise.  A script that could not be read is never asked for again under the same address.
  let tries = 0;
  async function load(runtime, wasm) {
    for (const last of [false, true]) {
      try {
        const { loadMicroPython } = await import(at(runtime) + (tries ? `#${tries}` : ""));
        return await loadMicroPython({ url: at(wasm), heapsize: HEAP_BYTES });
      } catch {
        tries += 1;
        if (last) throw new Error(NOT_WHOLE);
        await Promise.all([runtime, wasm].map((address) => fetch(at(address), { cache: "reload" }).catch(() => null)));
      }
    }
  }

  function write(files, path, text) {
    const folder = path.slice(0, path.lastIndexOf("/"));
    if (folder && !files.analyzePath(folder).exists) files.mkdirTree(folder);
    files.writeFile(path, text);
  }

  // One Python for the page, and each form's modules once; what failed is tried again when somebody asks again.
  return (addresses) => {
    started ??= start(addresses).catch((error) => {
      started = undefined;
      throw error;
    });
    brought[addresses.code] ??= bring(started, addresses.code).catch((error) => {
      delete brought[addresses.code];
      throw error;
    });
    return brought[addresses.code];
  };
})();
