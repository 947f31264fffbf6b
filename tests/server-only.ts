export {}; // stands in for the bundler marker "server-only" when tests run in plain Node
