package org.sapotrace.bench.rest;

import java.io.IOException;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/*
 * Its thread is its own: were it one of those that carry out requests, then as many imports as there
 * are of them would all wait for one more.
 */
/** Has one thing read while another one is recorded, and never more than one. */
final class ReadAhead<T> implements AutoCloseable {

  private final ExecutorService thread =
      Executors.newSingleThreadExecutor(reading -> new Thread(reading, "import reads ahead"));
  private @Nullable Future<T> begun;

  /** Begins to read. */
  void begin(Callable<T> reading) {
    if (begun != null) {
      throw new IllegalStateException("What was begun is to be finished first");
    }
    begun = thread.submit(reading);
  }

  /** What was read since it was begun, once all of it is. */
  T finish() throws IOException {
    if (begun == null) {
      throw new IllegalStateException("Nothing was begun");
    }
    try {
      return begun.get();
    } catch (ExecutionException failed) {
      throw rethrown(failed);
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new IOException(interrupted);
    } finally {
      begun = null;
    }
  }

  private static RuntimeException rethrown(ExecutionException failed) throws IOException {
    Throwable cause = failed.getCause();
    if (cause instanceof IOException brokenOff) {
      throw brokenOff;
    }
    if (cause instanceof Error fatal) {
      throw fatal;
    }
    return cause instanceof RuntimeException known ? known : new IllegalStateException(failed);
  }

  /** Gives up what is being read, and returns when nobody reads any more. */
  @Override
  public void close() {
    thread.shutdownNow();
    try {
      while (!thread.awaitTermination(1, TimeUnit.MINUTES)) {
        // It waits for the body, which the server gives up where nothing comes.
      }
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
    }
  }
}
