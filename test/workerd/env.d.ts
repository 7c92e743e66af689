declare namespace Cloudflare {
  interface Env {
    YARD: import('../../worker/yard/yard.ts').YardNamespace & DurableObjectNamespace;
  }
}
