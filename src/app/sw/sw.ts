export {};

declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: { url: string; revision: string | null }[] };
const files = self.__WB_MANIFEST; // put in by the build; must stand here exactly once
void files;
