package org.sapotrace.backup;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.postgresql.PGConnection;
import org.postgresql.copy.CopyManager;
import org.sapotrace.refusal.Refusal;

/*
 * PostgreSQL's own COPY, in text, of every table: any later PostgreSQL reads it, on any machine. One
 * transaction sees one state of everything, so the service may go on recording meanwhile.
 */
/** Writes all that is on record into one file. */
public final class Backup {

  private static final FileAttribute<?> OWNER_ONLY =
      PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"));

  private Backup() {}

  /**
   * Writes a backup, readable by its owner alone: it holds the secrets by which notices are signed.
   * The file is there whole or not at all.
   *
   * @param database on which nothing is under way
   * @param file which is not there yet
   * @return what was written
   * @throws Refusal where the file is there, or cannot be written, or the database cannot be read
   */
  public static Copied write(Connection database, Path file) {
    try {
      if (Files.exists(file)) {
        throw new FileAlreadyExistsException(file.toString());
      }
      Path whole = file.toAbsolutePath();
      Path unfinished = Files.createTempFile(whole.getParent(), "unfinished-", "", OWNER_ONLY);
      try {
        Copied copied = writeAll(database, unfinished);
        Files.move(unfinished, whole, StandardCopyOption.ATOMIC_MOVE);
        return copied;
      } finally {
        Files.deleteIfExists(unfinished);
      }
    } catch (FileAlreadyExistsException there) {
      throw Refusal.conflict(
          "%s is there already and stays as it is: name a file that is not.".formatted(file));
    } catch (IOException failed) {
      throw Refusal.impossible(
          "The backup %s cannot be written: %s.".formatted(file, failed.getMessage()));
    } catch (SQLException failed) {
      throw Refusal.impossible("The database cannot be read: %s.".formatted(failed.getMessage()));
    }
  }

  private static Copied writeAll(Connection database, Path file) throws IOException, SQLException {
    database.setAutoCommit(false);
    database.setReadOnly(true);
    database.setTransactionIsolation(Connection.TRANSACTION_REPEATABLE_READ);
    List<String> tables = Tables.inOrder(database);
    if (!tables.contains(Tables.HISTORY)) {
      throw Refusal.impossible(
          "There is nothing in this database yet: name another, or start the service on it once.");
    }
    try (ZipOutputStream archive = new ZipOutputStream(Files.newOutputStream(file))) {
      CopyManager copying = database.unwrap(PGConnection.class).getCopyAPI();
      List<Content> contents = new ArrayList<>();
      for (String table : tables) {
        archive.putNextEntry(new ZipEntry(table));
        contents.add(write(table, Tables.columns(database, table), copying, archive));
        archive.closeEntry();
      }
      archive.putNextEntry(new ZipEntry(Content.LIST));
      archive.write(Content.list(contents));
      archive.closeEntry();
      return Copied.of(contents);
    } finally {
      database.rollback();
    }
  }

  /** One table: a line that names its columns, and its rows. */
  private static Content write(
      String table, List<String> columns, CopyManager copying, OutputStream archive)
      throws IOException, SQLException {
    MessageDigest digest = Content.sha256();
    OutputStream out = new DigestOutputStream(new Entry(archive), digest);
    String list = String.join(", ", columns);
    out.write((list + "\n").getBytes(UTF_8));
    long rows = copying.copyOut("copy %s (%s) to stdout".formatted(table, list), out);
    return Content.of(table, rows, digest);
  }

  /** An entry of the archive, which stays open for the next one. */
  private static final class Entry extends FilterOutputStream {
    Entry(OutputStream archive) {
      super(archive);
    }

    @Override
    public void write(byte[] bytes, int from, int count) throws IOException {
      out.write(bytes, from, count);
    }

    @Override
    public void close() throws IOException {
      flush();
    }
  }
}
