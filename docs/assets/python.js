// The handbook's own Python in the browser, brought here when somebody needs it.
// Only `start` knows which Python that is: another one has to offer the same call.
const handbookPython = (() => {
  const root = new URL("..", document.currentScript.src);
  const at = (address) => new URL(address, root).href;
  const HEAP_BYTES = 4 * 1024 * 1024; // so much that nothing is collected while the modules are read
  let started;
  const brought = {};

  // The runtime at the addresses {runtime, wasm}.
  async function start({ runtime, wasm }) {
    if (location.protocol === "file:") {
      throw new Error("this page was opened as a file, and browsers let such a page load no parts");
    }
    if (typeof WebAssembly !== "object") throw new Error("this browser has no WebAssembly");
    const { loadMicroPython } = await import(at(runtime));
    const python = await loadMicroPython({ url: at(wasm), heapsize: HEAP_BYTES });
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

  async function fetchFiles(address) {
    const response = await fetch(address);
    if (!response.ok) throw new Error(`the site did not give ${address} (${response.status}); load the page again`);
    return response.json();
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
