/** Signs in as a browser does; the cookies to send from then on. */
export async function signIn(publicUrl: string, email: string, password: string): Promise<string> {
  const jar = new Map<string, string>();
  const keep = (answer: Response) => {
    for (const line of answer.headers.getSetCookie()) {
      const [name = "", value = ""] = line.split(";")[0]!.split(/=(.*)/s);
      jar.set(name, value);
    }
  };
  const header = () => [...jar].map(([name, value]) => `${name}=${value}`).join("; ");
  const first = await fetch(`${publicUrl}/api/auth/csrf`);
  keep(first);
  const { csrfToken } = (await first.json()) as { csrfToken: string };
  const body = new URLSearchParams({ csrfToken, email, password, json: "true" });
  const options = { method: "POST", body, headers: { cookie: header() }, redirect: "manual" } as const;
  keep(await fetch(`${publicUrl}/api/auth/callback/credentials`, options));
  return header();
}
