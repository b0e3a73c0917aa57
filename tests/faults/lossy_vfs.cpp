#include "tests/faults/lossy_vfs.h"

#include <sqlite3.h>

#include <cstring>
#include <fstream>
#include <map>
#include <mutex>
#include <new>

namespace likeleaf::test {

namespace {

struct Disk {
  std::mutex mutex;
  std::map<std::string, std::string> live;    ///< what SQLite wrote
  std::map<std::string, std::string> synced;  ///< what would survive
};

Disk& disk() {
  static Disk the_disk;
  return the_disk;
}

struct LossyFile {
  sqlite3_file base;
  std::string* path;  ///< nullptr: a temporary file without a name, not followed
  sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};

LossyFile* of(sqlite3_file* file) {
  return reinterpret_cast<LossyFile*>(file);
}
sqlite3_file* real_of(sqlite3_file* file) {
  return of(file)->real();
}

int close_file(sqlite3_file* file) {
  const int code = real_of(file)->pMethods->xClose(real_of(file));
  delete of(file)->path;
  of(file)->path = nullptr;
  return code;
}

int read_file(sqlite3_file* file, void* to, int count, sqlite3_int64 offset) {
  return real_of(file)->pMethods->xRead(real_of(file), to, count, offset);
}

int write_file(sqlite3_file* file, const void* from, int count, sqlite3_int64 offset) {
  const int code = real_of(file)->pMethods->xWrite(real_of(file), from, count, offset);
  if (code != SQLITE_OK || of(file)->path == nullptr) return code;
  const std::lock_guard lock(disk().mutex);
  std::string& bytes = disk().live[*of(file)->path];
  const auto end = static_cast<std::size_t>(offset) + static_cast<std::size_t>(count);
  if (bytes.size() < end) bytes.resize(end);
  std::memcpy(bytes.data() + offset, from, static_cast<std::size_t>(count));
  return code;
}

int truncate_file(sqlite3_file* file, sqlite3_int64 size) {
  const int code = real_of(file)->pMethods->xTruncate(real_of(file), size);
  if (code != SQLITE_OK || of(file)->path == nullptr) return code;
  const std::lock_guard lock(disk().mutex);
  disk().live[*of(file)->path].resize(static_cast<std::size_t>(size));
  return code;
}

int sync_file(sqlite3_file* file, int) {
  // The real sync is left out: what matters is that SQLite asked for it.
  if (of(file)->path == nullptr) return SQLITE_OK;
  const std::lock_guard lock(disk().mutex);
  disk().synced[*of(file)->path] = disk().live[*of(file)->path];
  return SQLITE_OK;
}

int file_size(sqlite3_file* file, sqlite3_int64* size) {
  return real_of(file)->pMethods->xFileSize(real_of(file), size);
}
int lock_file(sqlite3_file* file, int level) {
  return real_of(file)->pMethods->xLock(real_of(file), level);
}
int unlock_file(sqlite3_file* file, int level) {
  return real_of(file)->pMethods->xUnlock(real_of(file), level);
}
int check_lock(sqlite3_file* file, int* out) {
  return real_of(file)->pMethods->xCheckReservedLock(real_of(file), out);
}
int file_control(sqlite3_file* file, int what, void* argument) {
  return real_of(file)->pMethods->xFileControl(real_of(file), what, argument);
}
int sector_size(sqlite3_file* file) {
  return real_of(file)->pMethods->xSectorSize(real_of(file));
}
int characteristics(sqlite3_file* file) {
  return real_of(file)->pMethods->xDeviceCharacteristics(real_of(file));
}
int shm_map(sqlite3_file* file, int page, int size, int extend, void volatile** out) {
  return real_of(file)->pMethods->xShmMap(real_of(file), page, size, extend, out);
}
int shm_lock(sqlite3_file* file, int offset, int count, int flags) {
  return real_of(file)->pMethods->xShmLock(real_of(file), offset, count, flags);
}
void shm_barrier(sqlite3_file* file) {
  real_of(file)->pMethods->xShmBarrier(real_of(file));
}
int shm_unmap(sqlite3_file* file, int remove) {
  return real_of(file)->pMethods->xShmUnmap(real_of(file), remove);
}

const sqlite3_io_methods methods{
    2,         close_file,  read_file,  write_file,   truncate_file, sync_file,       file_size,
    lock_file, unlock_file, check_lock, file_control, sector_size,   characteristics, shm_map,
    shm_lock,  shm_barrier, shm_unmap,  nullptr,      nullptr};

sqlite3_vfs* real_vfs() {
  return sqlite3_vfs_find("unix");
}

int open_file(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* out) {
  new (file) LossyFile{};
  const int code = real_vfs()->xOpen(real_vfs(), name, real_of(file), flags, out);
  if (code != SQLITE_OK) return code;
  of(file)->base.pMethods = &methods;
  if (name == nullptr) return code;
  of(file)->path = new std::string(name);
  const std::lock_guard lock(disk().mutex);
  disk().live.try_emplace(name);
  // The folder's entry counts as synced: what is asked here is whether the content is.
  disk().synced.try_emplace(name);
  return code;
}

int delete_file(sqlite3_vfs*, const char* name, int sync_folder) {
  const int code = real_vfs()->xDelete(real_vfs(), name, sync_folder);
  const std::lock_guard lock(disk().mutex);
  disk().live.erase(name);
  disk().synced.erase(name);
  return code;
}

}  // namespace

std::string lossy_file_system() {
  static sqlite3_vfs vfs = [] {
    sqlite3_vfs made = *real_vfs();
    made.pNext = nullptr;
    made.zName = "forgets-unsynced";
    made.szOsFile = static_cast<int>(sizeof(LossyFile)) + real_vfs()->szOsFile;
    made.xOpen = open_file;
    made.xDelete = delete_file;
    return made;
  }();
  sqlite3_vfs_register(&vfs, 0);
  const std::lock_guard lock(disk().mutex);
  disk().live.clear();
  disk().synced.clear();
  return vfs.zName;
}

void power_cut(const std::filesystem::path& folder, const std::filesystem::path& target) {
  const std::lock_guard lock(disk().mutex);
  for (const auto& [name, bytes] : disk().synced) {
    const std::filesystem::path path(name);
    if (path.parent_path() == folder) std::ofstream(target / path.filename(), std::ios::binary) << bytes;
  }
}

}  // namespace likeleaf::test
