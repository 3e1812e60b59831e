// A phone whose page counts what its policy refuses, and every request that leaves the app's own folder.
export async function watched(app, options = {}) {
  const phone = await app.newPhone({ acceptDownloads: true, ...options });
  const broken = [];
  await phone.context.exposeFunction("policyBroken", (text) => broken.push(text));
  await phone.context.addInitScript(() => {
    document.addEventListener("securitypolicyviolation", ({ violatedDirective, blockedURI, sample }) =>
      globalThis.policyBroken(`${violatedDirective}: ${blockedURI} ${sample}`));
  });
  const strays = () => phone.seen.requests.filter((url) => !url.startsWith(`${app.url}/`) && !/^(?:blob|data):/.test(url));
  return { ...phone, broken, strays };
}
