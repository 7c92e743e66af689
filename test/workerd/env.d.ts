declare namespace Cloudflare {
  interface Env {
    YARD: import('../../worker/yard/yard.ts').YardNamespace & DurableObjectNamespace;
    RATE_PLAN: import('../../worker/api/limiter.ts').RateLimit;
  }
}
