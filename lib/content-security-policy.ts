/**
 * What a page may load and run, for one response. Scripts need this response's nonce; what they load in turn is trusted.
 *
 * Style attributes stay open: the server writes positions and widths into them, and they cannot run anything.
 * @source W3C Content Security Policy Level 3, sections 6.1 and 8.2
 */
export function contentSecurityPolicy(nonce: string, mode: "development" | "production"): string {
  const developing = mode === "development";
  return [
    "default-src 'self'",
    `script-src 'self' 'nonce-${nonce}' 'strict-dynamic'${developing ? " 'unsafe-eval'" : ""}`,
    developing ? "style-src 'self' 'unsafe-inline'" : `style-src 'self' 'nonce-${nonce}'`,
    "style-src-attr 'unsafe-inline'",
    "img-src 'self' blob: data:",
    "font-src 'self'",
    "connect-src 'self'",
    "worker-src 'self' blob:",
    "manifest-src 'self'",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join("; ");
}
