package org.sapotrace.http;

/** Who makes a request. */
public interface Caller {

  /** Whoever sits at the machine, where nobody signs in. */
  Caller BENCH = new Unsigned("bench", true);

  /** Who did not sign in where that is needed. */
  Caller NOBODY = new Unsigned("nobody", false);

  /** The name under which is remembered what the caller did. */
  String id();

  boolean may(Scope scope);

  /** A caller without a name of its own. */
  record Unsigned(String id, boolean mayAll) implements Caller {
    @Override
    public boolean may(Scope scope) {
      return mayAll;
    }
  }
}
